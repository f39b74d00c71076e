using System.Text.Json;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Exchange.Events;

/// <summary>
/// One message on its way in. Tolerant of what the standard lets senders do: unknown properties are passed over, null is
/// absent. Strict where a day or an animal hangs on it.
/// </summary>
internal sealed class EventInput
{
    // As at the other door (rule F4).
    private const int DaysAhead = 1;

    public EventInput(JsonElement element, HerdRequest request, EventNoun noun)
    {
        Request = request;
        Reader = new ObjectReader(element, Problems, tolerant: true);
        if (!Reader.IsObject)
        {
            return;
        }

        CheckType(noun);
        var meta = Reader.Object("meta", required: true);
        Source = meta?.Text("source", TextRule.Name, required: true);
        SourceId = meta?.Text("sourceId", TextRule.Name, required: true);
        IsDeleted = meta?.Truth("isDeleted") ?? false;
        var animal = Reader.Object(noun.AnimalProperty, required: true);
        Animal = new ExchangeIdentifier
        {
            Scheme = animal?.Text("scheme", TextRule.Name, required: true) ?? "",
            Id = animal?.Text("id", TextRule.Name, required: true) ?? "",
        };
    }

    public HerdRequest Request { get; }

    public ObjectReader Reader { get; }

    public FieldProblems Problems { get; } = new();

    public string? Source { get; }

    public string? SourceId { get; }

    public bool IsDeleted { get; }

    public ExchangeIdentifier Animal { get; } = new();

    /// <summary>The herd's day and time of the event.</summary>
    public (Day Day, LocalTime? Time) When(string name = "eventDateTime") => Moment(Reader, name, required: true) ?? (Day.Earliest, null);

    /// <summary>The herd's day and time of an instant; null when it is absent or wrong.</summary>
    public (Day Day, LocalTime? Time)? Moment(ObjectReader reader, string name, bool required = false)
    {
        if (reader.Text(name, TextRule.Label, required) is not { } text)
        {
            return null;
        }

        if (!ExchangeTime.TryInstant(text, out var instant))
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, ExchangeTime.Allowed);
            return null;
        }

        var moment = ExchangeTime.OnFarm(instant, Request.Zone);
        return IsPast(reader, name, moment.Day) ? moment : null;
    }

    /// <summary>A date alone; null when it is absent or wrong.</summary>
    public Day? Date(ObjectReader? reader, string name) => reader?.Day(name) is { } day && IsPast(reader, name, day) ? day : null;

    /// <summary>What our own extension says, when it was sent back.</summary>
    public ObjectReader? Extension() => Reader.Object(ExchangeWords.Extension);

    public string? Words(string name) => Reader.Text(name, TextRule.Words);

    private bool IsPast(ObjectReader reader, string name, Day day)
    {
        if (day - Request.Today <= DaysAhead)
        {
            return true;
        }

        reader.Refuse(name, ProblemTypes.InTheFuture, $"at most {DaysAhead} day after the herd's today, {Request.Today}");
        return false;
    }

    private void CheckType(EventNoun noun)
    {
        var type = Reader.Text("resourceType", TextRule.Label, required: true);
        if (type is not null && type != noun.ResourceType && type != noun.AlsoCalled)
        {
            Reader.Refuse("resourceType", ProblemTypes.InvalidValue, noun.ResourceType);
        }
    }
}
