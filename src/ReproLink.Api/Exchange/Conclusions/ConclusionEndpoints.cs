using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Conclusions;

/// <summary>What this service concludes, in the standard's messages. It is computed, so it is read only.</summary>
internal static class ConclusionEndpoints
{
    private const string Meta = """
        "meta":{"source":"org.reprolink","sourceId":"KIND:1042","modified":"2026-10-05T12:00:00Z"},"location":{"scheme":"farm","id":"north-ridge"}
        """;

    private const string Animal = """
        "animal":{"scheme":"us.bovine","id":"840003123456789"}
        """;

    private const string Gestation = """
        "id":"gestation:1042","expectedCalvingDate":"2027-06-15T17:00:00Z"
        """;

    private const string Status = """
        "id":"status:1042","eventDateTime":"2026-10-05T12:00:00Z","observedStatus":"Inseminated"
        """;

    public static void MapConclusions(this IEndpointRouteBuilder app)
    {
        app.MapGet($"{ExchangeEndpoints.Herd}/gestations", Gestations)
            .Describe(ExchangeDocs.Tag, "listGestations", "Standing pregnancies", """
                One an animal, with the day she is due. It is recomputed with every fact; one that ended is told as deleted when `meta-modified-from` is sent.
                """)
            .Lists(typeof(MemberPage<GestationMessage>), Page("icarGestationResource", "gestation", Gestation));
        app.MapGet($"{ExchangeEndpoints.Herd}/repro-status-observations", Statuses)
            .Describe(ExchangeDocs.Tag, "listStatusObservations", "Status of animals", """
                One an animal, as of the herd's today. What is not decided is never `NotPregnant`; where the standard has no word there is none.
                """)
            .Lists(typeof(MemberPage<StatusObserved>), Page("icarReproStatusObservedEventResource", "status", Status));
        app.MapGet($"{ExchangeEndpoints.Herd}/mating-recommendations", Recommendations)
            .Describe(ExchangeDocs.Tag, "listMatingRecommendations", "Mating recommendations", "Always empty: this service recommends no sires.")
            .Lists(typeof(MemberPage<MatingRecommendation>), """{"view":{"pageSize":100},"member":[]}""");
        app.MapGet($"{ExchangeEndpoints.Herd}/animals", Animals)
            .Describe(ExchangeDocs.Tag, "listAnimals", "Animals", "Every animal with a fact that counts, with what is concluded of her.")
            .Lists(typeof(MemberPage<AnimalMessage>), Page(AnimalNoun.Type, "animal", AnimalNoun.Animals.Example.Trim()));
    }

    private static IResult Gestations(HttpContext context, Store store)
    {
        var rules = store.Views.Current(context.Herd().Herd, context.Herd().Now).Rules;
        return ConclusionList.Get(context, store, "gestations", (animal, withDeleted) => StatusMapping.Gestation(animal, rules, withDeleted));
    }

    private static IResult Statuses(HttpContext context, Store store) =>
        ConclusionList.Get(context, store, "repro-status-observations", StatusMapping.Observed);

    private static IResult Recommendations(HttpContext context, Store store) =>
        ConclusionList.Get<MatingRecommendation>(context, store, "mating-recommendations", (_, _) => null);

    private static IResult Animals(HttpContext context, Store store) =>
        ConclusionList.Get(context, store, "animals", AnimalMapping.Conclude);

    private static string Page(string type, string kind, string own) => $$"""
        {"view":{"pageSize":100},"member":[{"resourceType":"{{type}}",{{own.Trim()}},{{Meta.Trim().Replace("KIND", kind, StringComparison.Ordinal)}}{{(kind == "animal" ? "" : "," + Animal.Trim())}}}]}
        """;
}
