using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Conclusions;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Herds;

/// <summary>The locations a caller may use.</summary>
internal static class LocationEndpoints
{
    private const string Example = """
        {"view":{"pageSize":100},"member":[{"resourceType":"icarLocationResource","@self":"http://127.0.0.1:5080/locations/farm/north-ridge",
          "meta":{"source":"org.reprolink","sourceId":"farm/north-ridge","modified":"2026-09-01T08:00:00Z","created":"2026-09-01T08:00:00Z"},
          "identifier":{"scheme":"farm","id":"north-ridge"},"name":"North Ridge","timeZoneId":"America/Chicago"}]}
        """;

    public static void MapLocations(this IEndpointRouteBuilder app) => app.MapGet("/locations", Get)
        .WithMetadata(new TakesKey())
        .Describe(ExchangeDocs.Tag, "listLocations", "Locations", "The locations the key may use. `timeZoneId` tells which day an instant is for the herd.")
        .Pages(typeof(MemberPage<LocationMessage>), Example);

    private static IResult Get(HttpContext context, Store store)
    {
        if (context.Features.Get<Caller>() is not { } caller)
        {
            return Problem.Of(ProblemTypes.KeyRequired, "This address needs a key: send `Authorization: Bearer KEY`.");
        }

        return ComputedPage.Of(new PageQuery(context, ofAnimals: false), ExchangeAddress.Locations(context), () => store.Herds.All().Where(herd => caller.Sees(herd.Location))
            .Select(herd => (new Place(herd.Changed, NameOf(herd.Location)), (Func<LocationMessage?>)(() => Of(context, herd)))));
    }

    private static string NameOf(LocationKey location) => $"{location.Scheme}/{location.Id}";

    private static LocationMessage Of(HttpContext context, Herd herd) => new()
    {
        ResourceType = "icarLocationResource",
        Self = ExchangeAddress.Of(context, herd.Location, "").TrimEnd('/'),
        Meta = new MetaContract
        {
            Source = ExchangeWords.Source,
            SourceId = NameOf(herd.Location),
            Modified = herd.Changed,
            Created = herd.Created,
        },
        Identifier = ExchangeAddress.Identifier(herd.Location),
        Name = herd.Name,
        TimeZoneId = herd.TimeZone,
    };
}
