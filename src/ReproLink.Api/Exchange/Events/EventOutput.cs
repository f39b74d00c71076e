using NodaTime;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Events;

/// <summary>What a page of events is written from: the herd as it stands, and what each fact did.</summary>
internal sealed class EventPen(HttpContext context, HerdView view, DateTimeZone zone)
{
    /// <summary>What each fact of an animal did.</summary>
    public AnimalTraces Traces { get; } = new(animal => view.Find(animal)?.History, view.Rules, view.AsOf, view.KnownAt);

    public DateTimeZone Zone => zone;

    public HerdView View => view;

    public EventOutput Of(StoredEvent stored) => new(this, stored, view.Find(stored.Animal));

    public string Address(string noun, string id) => $"{ExchangeAddress.Of(context, view.Herd.Location, noun)}/{Uri.EscapeDataString(id)}";
}

/// <summary>One event on its way out.</summary>
internal sealed record EventOutput(EventPen Pen, StoredEvent Stored, AnimalState? State)
{
    public Fact Fact => Stored.Fact;

    /// <summary>The instant of the herd's day and time.</summary>
    public Instant At(Fact fact) => ExchangeTime.At(fact.Day, fact.Time, Pen.Zone);

    /// <summary>What the fact decided; null when it is no result or does not count today.</summary>
    public Judgement? Judgement => Pen.Traces.Of(Stored.Animal).Of(Fact.Id);

    /// <summary>The extension every event has.</summary>
    public ExtensionContract Extension()
    {
        var warnings = FactWarnings.For(Pen.Traces, Stored.Animal, Fact.Id);
        return new ExtensionContract
        {
            Animal = Stored.Animal,
            FactId = Fact.Id.ToString(),
            Date = Fact.Day.Date,
            Warnings = warnings.Count == 0 ? null : warnings,
        };
    }

    /// <summary>Writes what all events have.</summary>
    public void Fill(AnimalEvent message, EventNoun noun)
    {
        message.ResourceType = noun.ResourceType;
        message.Id = Stored.Id.ToString();
        message.Self = Pen.Address(noun.Path, message.Id);
        message.Meta = new MetaContract
        {
            Source = Fact.Source,
            SourceId = Fact.SourceId,
            IsDeleted = Stored.IsDeleted || !noun.Shows(Fact) ? true : null,
            Modified = Stored.Modified,
            Created = Fact.Recorded,
        };
        message.Location = ExchangeAddress.Identifier(Pen.View.Herd.Location);
        message.Animal = AnimalBook.NameOf(State, Stored.Animal);
        message.EventDateTime ??= At(Fact);
        message.Extension ??= Extension();
    }
}
