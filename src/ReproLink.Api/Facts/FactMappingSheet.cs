using System.Text.Json;
using ReproLink.Api.Composition;
using ReproLink.Api.Intake;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

/// <summary>A sender's mapping of herd files, ready to read cells with.</summary>
internal sealed class FactMappingSheet
{
    private readonly HashSet<string> _empty;
    private readonly Dictionary<(FactRule Rule, string Property), Dictionary<string, string>> _words = [];

    public FactMappingSheet(string sender, FactMappingInput input)
    {
        (Sender, Input) = (sender, input);
        Writing = new SenderWriting(input.Dates, input.Decimal, input.Delimiter, input.Letters);
        LeaveOut = [.. (input.LeaveOut ?? []).Select(SenderWriting.Folded)];
        _empty = [.. (input.Empty ?? []).Select(SenderWriting.Folded)];
        foreach (var rule in input.Facts)
        {
            foreach (var (property, words) in rule.Words ?? new Dictionary<string, IReadOnlyDictionary<string, string>>())
            {
                // Of two words that are one but for case the last counts.
                var folded = new Dictionary<string, string>(StringComparer.Ordinal);
                foreach (var (theirs, ours) in words)
                {
                    folded[SenderWriting.Folded(theirs)] = ours;
                }

                _words[(rule, property)] = folded;
            }
        }
    }

    public string Sender { get; }

    public FactMappingInput Input { get; }

    public SenderWriting Writing { get; }

    public HashSet<string> LeaveOut { get; }

    /// <summary>Every heading it reads, and for what.</summary>
    public IEnumerable<(string For, string Heading)> Headings => Input.Columns.Select(c => (c.Key, c.Value))
        .Concat(Input.EventColumn is { } column ? [("what happened", column)] : [])
        .Concat(Input.Facts.SelectMany(f => (f.Columns ?? new Dictionary<string, string>()).Select(c => (c.Key, c.Value))));

    public static FactMappingSheet? Find(Store store, Herd herd, string sender) => store.FactMappings.Find(herd, sender) is { } saved
        ? new FactMappingSheet(sender, JsonSerializer.Deserialize<FactMappingInput>(saved.Json, JsonSetup.Options)!)
        : null;

    /// <summary>Whether a cell says nothing.</summary>
    public bool IsEmpty(string? cell) => cell is null || _empty.Contains(SenderWriting.Folded(cell));

    /// <summary>A cell in our own writing; what cannot be read stays as it is, to be refused by name.</summary>
    public string Read(FactRule rule, string property, string cell)
    {
        if (_words.TryGetValue((rule, property), out var words) && words.TryGetValue(SenderWriting.Folded(cell), out var ours))
        {
            return ours;
        }

        return property switch
        {
            "date" or "born" or "until" => (Writing.Date(cell) ?? Writing.Moment(cell)?.Date) is { } date ? Day.From(date).ToString() : cell,
            "time" => SenderWriting.Time(cell) is { } time ? Written(time) : cell,
            "parity" or "embryoAgeDays" => Whole(Writing.Number(cell)),
            _ when FactProperties.Words(property) is not null && FactProperties.Accepts(property, cell.ToLowerInvariant()) => cell.ToLowerInvariant(),
            _ => cell,
        };
    }

    /// <summary>The time that stands in a cell after the date.</summary>
    public string? TimeIn(string cell) => Writing.Moment(cell) is { } moment ? Written(moment.TimeOfDay) : null;

    // Spreadsheets write a number of calvings as 2.0.
    private static string Whole(string number) => number.EndsWith(".0", StringComparison.Ordinal) ? number[..^2] : number;

    private static string Written(NodaTime.LocalTime time) => FormattableString.Invariant($"{time.Hour:00}:{time.Minute:00}");
}
