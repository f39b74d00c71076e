using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Reproduction;

/// <summary>Heats, calvings, losses, dry-offs and do-not-breeds.</summary>
internal static class ReproductionMapping
{
    private const int MostReasons = 20;

    public static readonly EventNoun Heats = new EventNoun<HeatEvent>(
        "heats", "heat", "icarReproHeatEventResource", new KindSet(FactKind.Oestrus), _ => new HeatEvent())
    {
        Read = input => OfDay(input, (day, time) => new Oestrus(day) { Time = time }, "commencementDateTime"),
        Description = "A heat without `eventDateTime` is dated by `commencementDateTime`. Every certainty counts alike: a heat never releases anything, and one after a pregnant test withholds.",
        Example = """
            "eventDateTime":"2026-10-01T11:00:00Z","certainty":"InHeat"
            """,
    };

    public static readonly EventNoun Parturitions = new EventNoun<ParturitionEvent>(
        "parturitions", "parturition", "icarReproParturitionEventResource", new KindSet(FactKind.Calving), _ => new ParturitionEvent())
    {
        Read = input => OfDay(input, (day, time) => new Calving(day) { Time = time }),
        Description = "The calving, recorded on the dam. What it says of calves is not kept.",
        Example = """
            "eventDateTime":"2026-07-01T00:00:00Z"
            """,
    };

    public static readonly EventNoun Abortions = new EventNoun<AbortionEvent>(
        "abortions", "abortion", "icarReproAbortionEventResource", new KindSet(FactKind.Loss),
        output => new AbortionEvent { Extension = output.Extension() with { Examined = ((Loss)output.Fact).Examined } })
    {
        Read = input =>
        {
            var examined = input.Extension()?.Truth("examined") ?? false;
            return OfDay(input, (day, time) => new Loss(day, examined) { Time = time });
        },
        Description = "A loss. Unless our extension says that an examination found it, she is held pregnant until she is examined or tested.",
        Example = """
            "eventDateTime":"2026-10-01T00:00:00Z"
            """,
    };

    public static readonly EventNoun DryingOffs = new EventNoun<DryOffEvent>(
        "drying-offs", "drying-off", "icarMilkingDryOffEventResource", new KindSet(FactKind.DryOff), _ => new DryOffEvent())
    {
        Read = input => OfDay(input, (day, time) => new DryOff(day) { Time = time }),
        Description = "The end of a lactation.",
        Example = """
            "eventDateTime":"2026-10-01T00:00:00Z"
            """,
    };

    public static readonly EventNoun DoNotBreeds = new EventNoun<DoNotBreedEvent>(
        "do-not-breeds", "do-not-breed", "icarReproDoNotBreedEventResource", new KindSet(FactKind.DoNotBreed, FactKind.BreedAgain),
        output => new DoNotBreedEvent { DoNotBreed = output.Fact is DoNotBreed, Remark = (output.Fact as DoNotBreed)?.Reason })
    {
        Read = ReadDoNotBreed,
        Description = "`doNotBreed` absent means true; false means that she may be bred again.",
        Example = """
            "eventDateTime":"2026-10-01T00:00:00Z","doNotBreed":true
            """,
    };

    private static Fact ReadDoNotBreed(EventInput input)
    {
        var keep = input.Reader.Truth("doNotBreed") ?? true;
        var reason = input.Words("remark") ?? Reasons(input.Reader);
        return OfDay(input, (day, time) => keep ? new DoNotBreed(day) { Time = time, Reason = reason } : new BreedAgain(day) { Time = time });
    }

    // Reasons are identifiers of schemes; their ids are what a person would read.
    private static string? Reasons(ObjectReader reader)
    {
        if (reader.List("extendedReasons", MostReasons, "a list of identifiers") is not { Count: > 0 } reasons)
        {
            return null;
        }

        var ids = reasons
            .Select((element, i) => new ObjectReader(element, reader.Problems, reader.Path("extendedReasons", i), tolerant: true))
            .Select(identifier => identifier.IsObject ? identifier.Text("id", TextRule.Label, required: true) : null);
        return string.Join(", ", ids);
    }

    private static Fact OfDay(EventInput input, Func<Calendar.Dates.Day, NodaTime.LocalTime?, Fact> make, string? otherwise = null)
    {
        var (day, time) = otherwise is not null && !input.Reader.Has("eventDateTime") ? input.When(otherwise) : input.When();
        return make(day, time);
    }
}
