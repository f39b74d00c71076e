using NodaTime;
using ReproLink.Calendar.Testing;

namespace ReproLink.Api.Explanations;

/// <summary>First, wanted and last useful day of a test; end days included.</summary>
public sealed record WindowContract
{
    /// <summary>First day.</summary>
    public required LocalDate Opens { get; init; }

    /// <summary>Wanted day.</summary>
    public required LocalDate Target { get; init; }

    /// <summary>Last useful day; absent = none.</summary>
    public LocalDate? Closes { get; init; }

    /// <summary>The next day on which answer, need or overdue differ with the facts as they are; absent = never.</summary>
    public LocalDate? ChangesOn { get; init; }

    internal static WindowContract? Of(WindowAnswer answer) => answer.Verdict.Window is { } window
        ? new WindowContract
        {
            Opens = window.Opens.Date,
            Target = window.Target.Date,
            Closes = window.Closes?.Date,
            ChangesOn = answer.ChangesOn?.Date,
        }
        : null;
}
