using System.Collections.Frozen;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Composition;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Intake;

/// <summary>A sender's mapping of results, ready to read cells with.</summary>
internal sealed class SenderMapping
{
    /// <summary>What a result may carry.</summary>
    public static readonly FrozenSet<string> Properties = FrozenSet.Create<string>(
        "sourceId", "animal", "tube", "sampled", "time", "reported", "method", "specimen", "outcome", "value", "unit", "assay", "corpusLuteum", "examiner");

    private readonly MappingInput _input;
    private readonly Dictionary<string, string> _outcomes;

    public SenderMapping(string sender, MappingInput input)
    {
        Sender = sender;
        _input = input;
        Writing = new SenderWriting(input.Dates, input.Decimal, input.Delimiter, input.Letters);
        _outcomes = (input.Outcomes ?? new Dictionary<string, string>()).ToDictionary(o => SenderWriting.Folded(o.Key), o => o.Value, StringComparer.Ordinal);
    }

    public string Sender { get; }

    public SenderWriting Writing { get; }

    public IReadOnlyDictionary<string, string> Columns => _input.Columns;

    public IReadOnlyDictionary<string, string> Fixed => _input.Fixed ?? new Dictionary<string, string>();

    public static SenderMapping? Find(Store store, Herd herd, string sender) => store.ResultMappings.Find(herd, sender) is { } saved
        ? new SenderMapping(sender, JsonSerializer.Deserialize<MappingInput>(saved.Json, JsonSetup.Options)!)
        : null;

    /// <summary>A cell in our own writing; what cannot be read stays as it is, to be refused by name.</summary>
    public string Read(string property, string cell, Instant now, DateTimeZone zone) => property switch
    {
        "outcome" => _outcomes.GetValueOrDefault(SenderWriting.Folded(cell)) ?? (_outcomes.ContainsValue(cell.ToLowerInvariant()) ? cell.ToLowerInvariant() : cell),
        "sampled" => Writing.Date(cell) is { } date ? Day.From(date).ToString() : cell,
        "reported" => Reported(cell, now, zone),
        "value" => Writing.Number(cell),
        _ => cell,
    };

    // Known no earlier than it can have been: a date alone stands for the end of that day, and today's for now.
    private string Reported(string cell, Instant now, DateTimeZone zone)
    {
        if (Writing.Moment(cell) is { } moment)
        {
            return Written(moment.InZoneLeniently(zone).ToInstant());
        }

        if (Writing.Date(cell) is not { } date)
        {
            return cell;
        }

        var end = zone.AtStartOfDay((Day.From(date) + 1).Date).ToInstant();
        return Written(Day.From(date) <= Day.From(now.InZone(zone).Date) ? Instant.Min(end, now) : end);
    }

    private static string Written(Instant instant) => InstantPattern.ExtendedIso.Format(instant);
}
