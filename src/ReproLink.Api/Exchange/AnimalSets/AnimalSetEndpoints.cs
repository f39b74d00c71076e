using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Conclusions;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.AnimalSets;

/// <summary>Sampling rounds, so that herd software can show whom to catch. They are made at our own address.</summary>
internal static class AnimalSetEndpoints
{
    private const string Noun = "animal-sets";
    private const int RoundsARead = 1000;

    private const string Example = """
        {"view":{"pageSize":100},"member":[{"resourceType":"icarAnimalSetResource","id":"R12","meta":{"source":"org.reprolink","sourceId":"round:12",
          "modified":"2026-10-05T12:00:00Z","created":"2026-10-05T12:00:00Z"},"location":{"scheme":"farm","id":"north-ridge"},
          "name":"Sampling round R12 of 2026-10-08","purpose":"Session","member":[{"scheme":"us.bovine","id":"840003123456789"}]}]}
        """;

    public static void MapAnimalSets(this IEndpointRouteBuilder app) => app.MapGet($"{ExchangeEndpoints.Herd}/{Noun}", Get)
        .Describe(ExchangeDocs.Tag, "listAnimalSets", "Sampling rounds", "Each sampling round as a set of animals. With `animal-scheme` and `animal-id` those that hold her.")
        .Lists(typeof(MemberPage<AnimalSetMessage>), Example);

    private static IResult Get(HttpContext context, Store store)
    {
        var (request, query) = (context.Herd(), new PageQuery(context));
        return ComputedPage.Of(query, ExchangeAddress.Of(context, request.Herd.Location, Noun), () =>
        {
            // Read before the rounds: what is stored between is written with its older date, and comes again.
            var changes = store.Changes.LastChangesOfRounds(request.Herd);
            var view = store.Views.Current(request.Herd, request.Now);
            var names = query.Animal is { } animal ? new AnimalResolver(view).Named(animal.Scheme, animal.Id) : null;
            return Rounds(store, request.Herd)
                .Where(round => names is null || round.Tubes.Any(tube => names.Contains(tube.Animal)))
                .Select(round => (new Place(changes.GetValueOrDefault(round.Number, round.Created), $"R{round.Number}"), (Func<AnimalSetMessage?>)(() =>
                    Of(round, view, changes.GetValueOrDefault(round.Number, round.Created)))));
        });
    }

    private static AnimalSetMessage Of(Round round, HerdView view, NodaTime.Instant modified) => new()
    {
        ResourceType = "icarAnimalSetResource",
        Id = $"R{round.Number}",
        Meta = new MetaContract { Source = ExchangeWords.Source, SourceId = $"round:{round.Number}", Modified = modified, Created = round.Created },
        Location = ExchangeAddress.Identifier(view.Herd.Location),
        Name = round.Name ?? $"Sampling round R{round.Number} of {round.Day}",
        Member = [.. round.Tubes.Select(tube => tube.Animal).Distinct().Select(animal => AnimalBook.NameOf(view.Find(animal), animal))],
        Extension = new ExtensionContract { Date = round.Day.Date, Specimen = round.Specimen },
    };

    private static IEnumerable<Round> Rounds(Store store, Herd herd)
    {
        for (string? after = null; ;)
        {
            var page = store.Rounds.List(herd, after, RoundsARead);
            foreach (var round in page.Items)
            {
                yield return round;
            }

            if ((after = page.Next) is null)
            {
                yield break;
            }
        }
    }
}
