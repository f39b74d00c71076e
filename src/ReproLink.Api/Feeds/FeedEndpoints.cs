using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Feeds;

/// <summary>The work calendar as a feed to subscribe to, and its secret links.</summary>
internal static class FeedEndpoints
{
    private const string OneLink = """{"link":1,"name":"Dr. Fields, phone","style":"day","created":"2026-10-05T12:00:00Z","createdBy":"manager"}""";

    private const string NewLink = """
        {"link":1,"name":"Dr. Fields, phone","style":"day","created":"2026-10-05T12:00:00Z","createdBy":"manager",
         "address":"http://127.0.0.1:5080/locations/farm/north-ridge/work-calendar.ics?link=rl_secret"}
        """;

    private const string Feed = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//ReproLink//Work calendar//EN\r\nEND:VCALENDAR\r\n";

    private static readonly Vocabulary<bool> Styles = new(("item", false), ("day", true));

    public static void MapFeeds(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/work-calendar.ics", Get)
            .Describe("Calendar feed", "getCalendarFeed", "The work calendar to subscribe to", """
                RFC 5545. From two weeks back to 13 weeks ahead. Entries keep their identity when work is dated anew; what was cancelled stays as cancelled.
                Needs the secret of a link, or a key. Look at the list of the day before you inject: a phone may show an old copy.
                """)
            .Takes(new ParameterDoc("link", "The secret of a calendar link.", "rl_secret"))
            .Takes(new ParameterDoc("style", "With a key: one entry an item, or one a day.", "item") { Words = ["item", "day"] })
            .Answers(200, "The feed.", "text/calendar", typeof(string), Feed)
            .Refuses(400, 401, 404);
        herd.MapPost("/calendar-links", Create)
            .WithMetadata(new Needs(Permissions.Read | Permissions.PostFacts))
            .Describe("Calendar feed", "createCalendarLink", "Make a secret link", "One for each subscriber, so that each can be revoked alone. The address is shown once.")
            .Reads(typeof(FeedLinkInput), "Who it is for.", """{"name":"Dr. Fields, phone","style":"day"}""")
            .AnswersJson(201, "The link.", typeof(FeedLinkAnswer), NewLink)
            .Refuses(400, 413, 415);
        herd.MapGet("/calendar-links", List)
            .WithMetadata(new Needs(Permissions.Read | Permissions.PostFacts))
            .Describe("Calendar feed", "listCalendarLinks", "The links", "Every link ever made, without its secret.")
            .AnswersJson(200, "The links.", typeof(FeedLinkList), "{\"links\":[" + OneLink + "]}")
            .Refuses(400);
        herd.MapPost("/calendar-links/{link}/revoke", Revoke)
            .WithMetadata(new Needs(Permissions.Read | Permissions.PostFacts))
            .Describe("Calendar feed", "revokeCalendarLink", "Revoke a link", "From now on its address answers nothing.")
            .AnswersJson(200, "It is revoked.", typeof(FeedLinkList), "{\"links\":[" + OneLink + "]}")
            .Refuses(400, 404);
    }

    private static IResult Get(HttpContext context, Store store, IClock clock)
    {
        var query = new QueryReader(context);
        var secret = query.Text("link");
        var style = query.Word("style", "item", "day");
        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var caller = context.Features.Get<Caller>();
        if (secret is null && caller is null)
        {
            return Problem.Of(ProblemTypes.KeyRequired, "This address needs the secret of a calendar link, or a key.");
        }

        // A wrong secret, a foreign location and a missing one look the same.
        var location = HerdAccessMiddleware.LocationOf(context);
        var herd = store.Herds.Find(location);
        var link = herd is not null && secret is not null ? store.Feeds.Find(herd, secret) : null;
        var sees = link is not null || (secret is null && caller is not null && caller.Sees(location) && caller.Can(Permissions.Read));
        if (herd is null || !sees)
        {
            return Problem.Of(ProblemTypes.LocationNotFound, "There is no such location.");
        }

        var view = store.Views.Current(herd, clock.GetCurrentInstant());
        var byDay = (link?.Style ?? style) == "day";
        return Results.Text(FeedWriter.Write(view, byDay), "text/calendar; charset=utf-8");
    }

    private static async Task<IResult> Create(HttpContext context, Store store)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var reader = new ObjectReader(body.Root, new FieldProblems());
        var (name, style) = Read(reader);
        if (reader.Problems.Any)
        {
            return Problem.OfBody(reader.Problems.List);
        }

        var (secret, link) = await store.Feeds.Create(request.Herd, name, style, request.Caller.Name, request.Now);
        var address = AddressOf(context, context.Request.Path.Value!.Replace("/calendar-links", "", StringComparison.Ordinal), secret);
        return Results.Created(context.Request.Path, Answer(link) with { Address = address });
    }

    /// <summary>Who a link is for and its style; everything wrong with it goes to the reader's problems.</summary>
    public static (string Name, string Style) Read(ObjectReader reader)
    {
        var name = reader.Text("name", TextRule.Name, required: true);
        var byDay = reader.Word("style", Styles) ?? false;
        reader.Done();
        return (name ?? "", byDay ? "day" : "item");
    }

    /// <summary>The address to subscribe to.</summary>
    /// <param name="context">The request: its host is the one that answers.</param>
    /// <param name="location">Path of the location.</param>
    /// <param name="secret">The link's secret.</param>
    public static string AddressOf(HttpContext context, string location, string secret) =>
        $"{context.Request.Scheme}://{context.Request.Host}{location}/work-calendar.ics?link={secret}";

    private static IResult List(HttpContext context, Store store) => new QueryReader(context).Done() ?? Links(context, store);

    private static IResult Links(HttpContext context, Store store) =>
        Results.Ok(new FeedLinkList { Links = [.. store.Feeds.List(context.Herd().Herd).Select(Answer)] });

    private static async Task<IResult> Revoke(HttpContext context, Store store, string link)
    {
        var request = context.Herd();
        return long.TryParse(link, out var number) && await store.Feeds.Revoke(request.Herd, number, request.Now)
            ? Links(context, store)
            : Problem.Of(ProblemTypes.LinkNotFound, "The herd has no such calendar link.");
    }

    private static FeedLinkAnswer Answer(FeedLink link) => new()
    {
        Link = link.Id,
        Name = link.Name,
        Style = link.Style,
        Created = link.Created,
        CreatedBy = link.CreatedBy,
        Revoked = link.Revoked,
    };
}
