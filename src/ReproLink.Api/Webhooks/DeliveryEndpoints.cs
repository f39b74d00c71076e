using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Webhooks.Sending;
using ReproLink.Records;

namespace ReproLink.Api.Webhooks;

/// <summary>What was sent to a webhook, and sending it by hand.</summary>
internal static class DeliveryEndpoints
{
    private const int UsualPage = 20;
    private const int MostDeliveriesAPage = 100;

    public static void MapDeliveries(this IEndpointRouteBuilder herd)
    {
        herd.MapPost("/webhooks/{webhook}/ping", Ping)
            .WithMetadata(WebhookEndpoints.Needed)
            .Describe(WebhookEndpoints.Tag, "pingWebhook", "Send a test message", """
                A signed message of the type `webhook.test` is sent once, to a paused or stopped webhook too. What came of it is read from the answered delivery.
                """)
            .AnswersJson(202, "It is on its way.", typeof(DeliveryAnswer), WebhookExamples.Test)
            .Refuses(400, 404);
        herd.MapGet("/webhooks/{webhook}/deliveries", List)
            .WithMetadata(WebhookEndpoints.Needed)
            .Describe(WebhookEndpoints.Tag, "listDeliveries", "What was sent", "Messages with every attempt, the latest first. The last 500 are kept, and those that still wait.")
            .Takes(new ParameterDoc("state", "Only these; absent = all.", "failed") { Words = WebhookMapping.DeliveryStates.Words })
            .Takes(new ParameterDoc("after", "`next` of the page before.", ""))
            .Takes(new ParameterDoc("limit", "Most of a page, 1 to 100; absent = 20.", "20", "integer"))
            .AnswersJson(200, "A page of messages.", typeof(DeliveryPage), WebhookExamples.Page)
            .Refuses(400, 404);
        herd.MapGet("/webhooks/{webhook}/deliveries/{delivery}", Get)
            .WithMetadata(WebhookEndpoints.Needed)
            .Describe(WebhookEndpoints.Tag, "getDelivery", "One message", "Its body and every attempt.")
            .AnswersJson(200, "The message.", typeof(DeliveryAnswer), WebhookExamples.Delivery)
            .Refuses(400, 404);
        herd.MapPost("/webhooks/{webhook}/deliveries/{delivery}/redeliver", Redeliver)
            .WithMetadata(WebhookEndpoints.Needed)
            .Describe(WebhookEndpoints.Tag, "redeliver", "Send a message again", """
                With the same id and body, at once, and then by the schedule from its start. One that waits for its next attempt is tried at once.
                """)
            .AnswersJson(202, "It is on its way.", typeof(DeliveryAnswer), WebhookExamples.Delivery)
            .Conflicts(ProblemTypes.WebhookNotActive)
            .Refuses(400, 404);
    }

    private static async Task<IResult> Ping(HttpContext context, Store store, string webhook)
    {
        var (found, missing) = WebhookEndpoints.Find(context, store, webhook);
        if (found is null)
        {
            return missing!;
        }

        var request = context.Herd();
        var delivery = await store.Deliveries.Test(request.Herd, found.Id, Messages.OfTest(request.Herd.Location, found.Id, request.Now), request.Now);
        return Results.Accepted($"{context.Request.Path.Value![..^"ping".Length]}deliveries/{delivery.Id}", WebhookMapping.Answer(delivery));
    }

    private static IResult List(HttpContext context, Store store, string webhook)
    {
        var (found, missing) = WebhookEndpoints.Find(context, store, webhook);
        if (found is null)
        {
            return missing!;
        }

        var query = new QueryReader(context);
        var state = query.Word("state", [.. WebhookMapping.DeliveryStates.Words]);
        var after = query.Text("after");
        var limit = query.Integer("limit", 1, MostDeliveriesAPage, UsualPage);
        if (after is not null && !Cursor.IsValid(after))
        {
            query.Refuse("after", after, "`next` of an earlier page");
        }

        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var wanted = state is not null && WebhookMapping.DeliveryStates.TryRead(state, out var meaning) ? meaning : (DeliveryState?)null;
        var page = store.Deliveries.List(context.Herd().Herd, found.Id, wanted, after, limit);
        return Results.Ok(new DeliveryPage { Deliveries = [.. page.Items.Select(WebhookMapping.Answer)], Next = page.Next });
    }

    private static IResult Get(HttpContext context, Store store, string webhook, string delivery)
    {
        var (found, missing) = WebhookEndpoints.Find(context, store, webhook);
        return missing ?? new QueryReader(context).Done()
            ?? (store.Deliveries.Find(context.Herd().Herd, found!.Id, delivery) is { } message ? Results.Ok(WebhookMapping.Answer(message)) : NoSuchDelivery());
    }

    private static async Task<IResult> Redeliver(HttpContext context, Store store, string webhook, string delivery)
    {
        var (found, missing) = WebhookEndpoints.Find(context, store, webhook);
        if (found is null)
        {
            return missing!;
        }

        var request = context.Herd();
        if (store.Deliveries.Find(request.Herd, found.Id, delivery) is not { } message)
        {
            return NoSuchDelivery();
        }

        if (found.State != WebhookState.Active && message.Type != Messages.Test)
        {
            return Problem.Of(ProblemTypes.WebhookNotActive, $"The webhook is {WebhookMapping.States.Word(found.State)}; resume it first.");
        }

        return await store.Deliveries.Redeliver(request.Herd, found.Id, delivery, request.Now) is { } again
            ? Results.Accepted(context.Request.Path.Value![..^"/redeliver".Length], WebhookMapping.Answer(again))
            : NoSuchDelivery();
    }

    private static Problem NoSuchDelivery() => Problem.Of(ProblemTypes.DeliveryNotFound, "The webhook has no such message, or none any more.");
}
