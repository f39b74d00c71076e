using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Problems;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Events;

/// <summary>The addresses of one kind of event: a page of them, one of them, post one, post many.</summary>
internal static class EventEndpoints
{
    public static void MapEvents(this IEndpointRouteBuilder app, EventNoun noun)
    {
        app.MapGet($"{ExchangeEndpoints.Herd}/{noun.Path}", (HttpContext context, Store store) => List(context, store, noun)).DescribeList(noun);
        app.MapPosts(noun);
    }

    /// <summary>The same without the page.</summary>
    public static void MapPosts(this IEndpointRouteBuilder app, EventNoun noun)
    {
        var (herd, address) = (ExchangeEndpoints.Herd, noun.Path);
        app.MapGet($"{herd}/{address}/{{factId}}", (HttpContext context, Store store, string factId) => Get(context, store, noun, factId)).DescribeGet(noun);
        app.MapPost($"{herd}/{address}", (HttpContext context, Store store) => Post(context, store, noun)).DescribePost(noun);
        app.MapPost($"/batches{herd}/{address}", (HttpContext context, Store store) => PostMany(context, store, noun)).DescribeBatch(noun);
    }

    private static IResult List(HttpContext context, Store store, EventNoun noun)
    {
        var (request, query) = (context.Herd(), new PageQuery(context));
        if (query.Refusal is { } refusal)
        {
            return refusal;
        }

        if (query.Cursor is { } cursor && !Cursor.IsValid(cursor))
        {
            return query.WrongCursor();
        }

        // What changes after the page was read is in the view as well: an answer may be newer than it says, never older.
        var page = store.Changes.Events(request.Herd, new EventQuery(noun.Kinds, noun.Shows)
        {
            Animals = query.Animal is { } animal ? new AnimalResolver(store.Views.Current(request.Herd, request.Now)).Named(animal.Scheme, animal.Id) : null,
            From = query.From,
            To = query.To,
            After = query.Cursor,
            Limit = query.Size,
        });
        var pen = PenOf(context, store);
        var next = page.Next is { } after ? query.Next(ExchangeAddress.Of(context, request.Herd.Location, noun.Path), after) : null;
        return Results.Ok(noun.WritePage(new PageView { PageSize = query.Size, Next = next }, page.Items.Select(pen.Of)));
    }

    private static IResult Get(HttpContext context, Store store, EventNoun noun, string id)
    {
        var request = context.Herd();
        if (FactId.TryParse(id, out var fact) && store.Changes.LatestOf(request.Herd, fact) is { } stored && noun.Kinds.Contains(stored.Fact.Kind))
        {
            return Results.Ok((object)noun.Write(PenOf(context, store).Of(stored)));
        }

        return store.Held.Find(request.Herd, id) is { } held && noun.IsResult
            ? Waiting(context, store, noun, held)
            : Problem.Of(ProblemTypes.NotFound, $"The herd has no {noun.Word} '{id}'.");
    }

    private static async Task<IResult> Post(HttpContext context, Store store, EventNoun noun)
    {
        var (document, refusal) = await EventBody.One(context);
        using var _ = document;
        if (document is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var item = (await new EventIntake(store, request, noun, context.RequestAborted).Take([document.RootElement])).Single();
        if (item.IsRefused)
        {
            return Problem.OfBody(item.Problems);
        }

        if (item is { HeldId: null, Stored: { } stored })
        {
            return Results.Ok((object)noun.Write(PenOf(context, store).Of(stored)));
        }

        context.Response.Headers.Location = item.HeldId is { } held
            ? new EventPen(context, store.Views.Current(request.Herd, request.Now), request.Zone).Address(noun.Path, held)
            : ExchangeAddress.Of(context, request.Herd.Location, noun.Path);
        return Results.Json(EventAnswers.Of(item, null, request.Now), statusCode: StatusCodes.Status202Accepted);
    }

    private static async Task<IResult> PostMany(HttpContext context, Store store, EventNoun noun)
    {
        var (document, refusal) = await EventBody.Many(context);
        using var _ = document;
        if (document is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        JsonElement.ArrayEnumerator messages = document.RootElement.EnumerateArray();
        var items = await new EventIntake(store, request, noun, context.RequestAborted).Take(messages);
        var pen = PenOf(context, store);
        return Results.Ok(items.Select(item => EventAnswers.Of(item, pen, request.Now)).ToArray());
    }

    // The herd as it stands now, not as it stood when the request came.
    private static EventPen PenOf(HttpContext context, Store store)
    {
        var request = context.Herd();
        return new EventPen(context, store.Views.Current(request.Herd, request.Now), request.Zone);
    }

    private static IResult Waiting(HttpContext context, Store store, EventNoun noun, HeldResult held)
    {
        if (held.End?.Fact is { } fact && store.Facts.Find(context.Herd().Herd, fact) is { } stored)
        {
            var identity = (stored.Fact.Source, stored.Fact.SourceId);
            return Results.Ok((object)noun.Write(PenOf(context, store).Of(store.Changes.Latest(context.Herd().Herd, [identity])[identity])));
        }

        return Results.Json(EventAnswers.Of(held), statusCode: StatusCodes.Status202Accepted);
    }
}
