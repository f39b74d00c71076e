using System.Text.Json;
using NodaTime;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Problems;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Events;

/// <summary>One message and what becomes of it.</summary>
internal sealed class EventItem
{
    public EventItem(EventInput input, JsonElement received) => (Input, Received) = (input, received);

    public EventInput Input { get; }

    /// <summary>As it came.</summary>
    public JsonElement Received { get; }

    public IReadOnlyList<FieldProblem> Problems => Input.Problems.List;

    public (string Source, string SourceId) Identity => (Input.Source ?? "", Input.SourceId ?? "");

    public bool IsRefused => Input.Problems.Any;

    /// <summary>Whom it is about, once read.</summary>
    public NamedAnimal? Named { get; private set; }

    /// <summary>The fact to append; null when it is refused, taken back or held.</summary>
    public FactDraft? Draft { get; set; }

    /// <summary>Further facts to append: what else the event tells, and the card that notes whom an identifier means.</summary>
    public List<FactDraft> Beside { get; } = [];

    /// <summary>Suffixes of further facts it does not tell: what an earlier form of it told is withdrawn.</summary>
    public List<string> NotTold { get; } = [];

    /// <summary>What waits instead.</summary>
    public HeldDraft? Held { get; set; }

    /// <summary>The id it waits under.</summary>
    public string? HeldId { get; set; }

    /// <summary>What it stands for now.</summary>
    public StoredEvent? Stored { get; set; }

    /// <summary>The item's identity for its answer; what its sender wrote as far as it can be read.</summary>
    public MetaContract? Meta(Instant now) => Input.Source is null ? null : new MetaContract
    {
        Source = Input.Source,
        SourceId = Input.SourceId,
        IsDeleted = Input.IsDeleted ? true : null,
        Modified = Stored?.Modified ?? now,
    };

    /// <summary>Refused after all: it tells nothing.</summary>
    public void Drop()
    {
        Draft = null;
        Beside.Clear();
        NotTold.Clear();
    }

    /// <summary>Reads the facts it tells; afterwards it is refused, or has its drafts.</summary>
    public void Read(EventNoun noun, AnimalResolver animals)
    {
        if (!Input.Reader.IsObject || Input.IsDeleted)
        {
            return;
        }

        var fact = noun.Read(Input);
        var besides = noun.Besides.Select(b => (b.Suffix, Fact: b.Read(Input))).ToArray();
        if (IsRefused)
        {
            return;
        }

        Named = animals.Resolve(Input.Animal.Scheme, Input.Animal.Id);
        if (Named.IsAmbiguous && !noun.IsResult)
        {
            Input.Reader.Refuse(noun.AnimalProperty, ProblemTypes.InvalidValue, "an identifier that one animal carries");
            return;
        }

        Draft = new FactDraft(Named.Name, fact with { Source = Input.Source!, SourceId = Input.SourceId! });
        // A card carries the identifier itself.
        if (Named.Implied is { } implied && fact is not AnimalCard)
        {
            Beside.Add(implied);
        }

        foreach (var (suffix, beside) in besides)
        {
            if (beside is null)
            {
                NotTold.Add(suffix);
            }
            else
            {
                Beside.Add(new FactDraft(Named.Name, beside with { Source = Input.Source!, SourceId = Input.SourceId! + suffix }));
            }
        }
    }
}
