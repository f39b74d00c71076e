using NodaTime;
using ReproLink.Calendar.Explanations;

namespace ReproLink.Api.Explanations;

/// <summary>One line of an explanation: a rule, a sentence and the facts it rests on.</summary>
public sealed record ReasonContract
{
    /// <summary>The rule's id.</summary>
    /// <example>T1</example>
    public required string Rule { get; init; }

    /// <summary>The day it leads to; absent where it leads to none.</summary>
    public LocalDate? Date { get; init; }

    /// <summary>A sentence.</summary>
    /// <example>28 days after the service of 10 September 2026</example>
    public required string Text { get; init; }

    /// <summary>Ids of the facts it names.</summary>
    public required IReadOnlyList<string> Facts { get; init; }

    internal static ReasonContract Of(Reason reason) => new()
    {
        Rule = reason.Rule,
        Date = reason.Date?.Date,
        Text = reason.Text,
        Facts = [.. reason.Facts.Select(f => f.ToString())],
    };
}
