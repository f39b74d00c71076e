using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <summary>One of the choices of how to read.</summary>
/// <param name="Value">As sent.</param>
/// <param name="Words">As said.</param>
/// <param name="Chosen">A reader who chose it.</param>
public sealed record ReaderChoice(string Value, string Words, Func<Reader, Reader> Chosen);

/// <summary>One question about how to read.</summary>
/// <param name="Name">The name of its field.</param>
/// <param name="Of">The value of a reader's own choice.</param>
/// <param name="Choices">What may be chosen.</param>
public sealed record ReaderField(string Name, Func<Reader, string> Of, IReadOnlyList<ReaderChoice> Choices)
{
    /// <summary>Whether a week shows what it means; else a day and a time do.</summary>
    public bool OfWeek { get; init; }
}

/// <summary>The questions about how somebody reads, and what she answers.</summary>
public static class ReaderForm
{
    /// <summary>The questions.</summary>
    public static IReadOnlyList<ReaderField> Fields =>
    [
        new("language", r => r.Language.Code, [.. Language.All.Select(l => new ReaderChoice(l.Code, l.Text("language.name"), r => r with { Language = l }))]),
        new("dates", r => r.Dates.ToString(), [.. Enum.GetValues<DateStyle>().Select(d => new ReaderChoice(d.ToString(), T("reading.dates." + d), r => r with { Dates = d }))]),
        new("weekStart", r => r.WeekStart.ToString(), [.. Reader.WeekStarts.Select(d => new ReaderChoice(d.ToString(), Say.Weekday(d), r => r with { WeekStart = d }))]) { OfWeek = true },
        new("clock", r => r.TwelveHours ? "12" : "24",
        [
            new("24", T("reading.clock.24"), r => r with { TwelveHours = false }),
            new("12", T("reading.clock.12"), r => r with { TwelveHours = true }),
        ]),
    ];

    /// <summary>The reader somebody says she is, and a sentence for each answer that is none.</summary>
    /// <param name="sent">What was sent in a field; null = nothing.</param>
    public static (Reader Reader, IReadOnlyDictionary<string, string> Problems) Read(Func<string, string?> sent)
    {
        ArgumentNullException.ThrowIfNull(sent);
        var (reader, problems) = (Reader.Current, new Dictionary<string, string>(StringComparer.Ordinal));
        foreach (var field in Fields)
        {
            var value = sent(field.Name);
            if (field.Choices.FirstOrDefault(c => c.Value == value) is { } choice)
            {
                reader = choice.Chosen(reader);
            }
            else
            {
                var allowed = string.Join(", ", field.Choices.Select(c => c.Words));
                problems[field.Name] = string.IsNullOrEmpty(value) ? T("problem.missing", allowed) : T("problem.notUsable", $"“{value}”", allowed);
            }
        }

        return (reader, problems);
    }
}
