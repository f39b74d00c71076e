using System.Collections.Frozen;
using System.Globalization;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Composition;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Intake;

/// <summary>A sender's mapping, ready to read cells with.</summary>
internal sealed class SenderMapping
{
    /// <summary>What a result may carry.</summary>
    public static readonly FrozenSet<string> Properties = FrozenSet.Create<string>(
        "sourceId", "animal", "tube", "sampled", "time", "reported", "method", "specimen", "outcome", "value", "unit", "assay", "corpusLuteum", "examiner");

    private readonly MappingInput _input;
    private readonly LocalDatePattern[] _dates;
    private readonly LocalDateTimePattern[] _moments;
    private readonly Dictionary<string, string> _outcomes;

    public SenderMapping(string sender, MappingInput input)
    {
        Sender = sender;
        _input = input;
        string[] dates = [.. input.Dates ?? ["yyyy-MM-dd"]];
        _dates = [.. dates.Select(DatePattern)];
        _moments = [.. dates.Select(d => LocalDateTimePattern.CreateWithInvariantCulture(Years(d) + " HH:mm"))];
        _outcomes = (input.Outcomes ?? new Dictionary<string, string>()).ToDictionary(o => Folded(o.Key), o => o.Value, StringComparer.Ordinal);
    }

    public string Sender { get; }

    public IReadOnlyDictionary<string, string> Columns => _input.Columns;

    public IReadOnlyDictionary<string, string> Fixed => _input.Fixed ?? new Dictionary<string, string>();

    public char Delimiter => _input.Delimiter switch { ";" => ';', "tab" => '\t', _ => ',' };

    public static SenderMapping? Find(Store store, Herd herd, string sender) => store.Mappings.Find(herd, sender) is { } saved
        ? new SenderMapping(sender, JsonSerializer.Deserialize<MappingInput>(saved.Json, JsonSetup.Options)!)
        : null;

    /// <summary>Headings and words as they are compared.</summary>
    public static string Folded(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToUpperInvariant();

    public static bool IsDatePattern(string pattern)
    {
        if (pattern.Length > 20 || pattern.Any(c => char.IsLetter(c) && c is not ('d' or 'M' or 'y')))
        {
            return false;
        }

        try
        {
            // A pattern without day, month or year would read every file, and wrongly.
            var tried = DatePattern(pattern);
            return tried.Parse(tried.Format(new LocalDate(2026, 11, 25))) is { Success: true } back && back.Value == new LocalDate(2026, 11, 25)
                && LocalDateTimePattern.CreateWithInvariantCulture(Years(pattern) + " HH:mm") is not null;
        }
        catch (InvalidPatternException)
        {
            return false;
        }
    }

    /// <summary>A cell in our own writing; what cannot be read stays as it is, to be refused by name.</summary>
    public string Read(string property, string cell, Instant now, DateTimeZone zone) => property switch
    {
        "outcome" => _outcomes.GetValueOrDefault(Folded(cell)) ?? (_outcomes.ContainsValue(cell.ToLowerInvariant()) ? cell.ToLowerInvariant() : cell),
        "sampled" => Date(cell) is { } date ? Day.From(date).ToString() : cell,
        "reported" => Reported(cell, now, zone),
        "value" => _input.Decimal == "," ? cell.Replace(',', '.') : cell,
        _ => cell,
    };

    // Known no earlier than it can have been: a date alone stands for the end of that day, and today's for now.
    private string Reported(string cell, Instant now, DateTimeZone zone)
    {
        foreach (var pattern in _moments)
        {
            if (pattern.Parse(cell) is { Success: true } moment)
            {
                return Written(moment.Value.InZoneLeniently(zone).ToInstant());
            }
        }

        if (Date(cell) is not { } date)
        {
            return cell;
        }

        var end = zone.AtStartOfDay((Day.From(date) + 1).Date).ToInstant();
        return Written(Day.From(date) <= Day.From(now.InZone(zone).Date) ? Instant.Min(end, now) : end);
    }

    private LocalDate? Date(string cell)
    {
        foreach (var pattern in _dates)
        {
            if (pattern.Parse(cell) is { Success: true } date)
            {
                return date.Value;
            }
        }

        return null;
    }

    private static string Written(Instant instant) => InstantPattern.ExtendedIso.Format(instant);

    private static LocalDatePattern DatePattern(string pattern) =>
        LocalDatePattern.Create(Years(pattern), CultureInfo.InvariantCulture, new LocalDate(2000, 1, 1));

    // People write y for the year; the pattern's own y counts years of an era.
    private static string Years(string pattern) => pattern.Replace('y', 'u');
}
