using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Transfer;
using ReproLink.Api.Webhooks.Sending;
using ReproLink.Records;

namespace ReproLink.Api.Webhooks;

/// <summary>Addresses that are told of a herd's changes.</summary>
internal static class WebhookEndpoints
{
    public const string Tag = "Webhooks";

    /// <summary>Whoever posts facts may be told what became of them.</summary>
    public static readonly Needs Needed = new(Permissions.Read | Permissions.PostFacts);

    public static void MapWebhooks(this IEndpointRouteBuilder herd)
    {
        herd.MapPost("/webhooks", Create)
            .WithMetadata(Needed)
            .Describe(Tag, "createWebhook", "Be told of changes", """
                From now on messages are posted to the address, signed by the Standard Webhooks specification (`webhook-id`, `webhook-timestamp`,
                `webhook-signature`). They say that something changed and from which cursor to read it; what changes in quick succession is one message.
                The secret is answered here and never again. A key that is not a manager's sees its own webhooks only; once its key is revoked a
                webhook stops. At most 20 a location. No `Idempotency-Key`: an answer that holds a secret is not kept.
                """)
            .Reads(typeof(WebhookInput), "Where to, and of what.", WebhookExamples.Input)
            .WithMetadata(new CallbackDoc("message", "{$request.body#/url}", typeof(WebhookMessage), """
                Answer 2xx once you have it, within 20 seconds; do the work afterwards. Anything else is tried again, ten times over three days; 410 ends
                the webhook. The same `webhook-id` may come more than once.
                """, WebhookExamples.Message))
            .AnswersJson(201, "It is made; keep the secret.", typeof(WebhookAnswer), WebhookExamples.WithSecret)
            .Conflicts(ProblemTypes.WebhookExists, ProblemTypes.TooManyWebhooks)
            .Refuses(400, 413, 415);
        herd.MapGet("/webhooks", List)
            .WithMetadata(Needed)
            .Tags()
            .Describe(Tag, "listWebhooks", "The webhooks", "A manager's key sees all of the location, another its own.")
            .AnswersJson(200, "The webhooks.", typeof(WebhookList), WebhookExamples.List)
            .Refuses(400);
        herd.MapGet("/webhooks/{webhook}", Get)
            .WithMetadata(Needed)
            .Tags()
            .Describe(Tag, "getWebhook", "One webhook", "Whether it is active, and why not.")
            .AnswersJson(200, "The webhook.", typeof(WebhookAnswer), WebhookExamples.One)
            .Refuses(400, 404);
        herd.MapPatch("/webhooks/{webhook}", Patch)
            .WithMetadata(Needed)
            .Describe(Tag, "changeWebhook", "Pause, resume or change a webhook", """
                Resumed, it acts for the key that resumed it, what waited is tried at once, and what changed meanwhile is told in one message.
                """)
            .Reads(typeof(WebhookUpdate), "What to change.", WebhookExamples.Update)
            .AnswersJson(200, "It is changed.", typeof(WebhookAnswer), WebhookExamples.Paused)
            .Refuses(400, 404, 413, 415);
        herd.MapDelete("/webhooks/{webhook}", Delete)
            .WithMetadata(Needed)
            .Describe(Tag, "deleteWebhook", "Delete a webhook", "With its secret and its log.")
            .WithMetadata(new AnswerDoc(204, "It is gone.", "", null, null))
            .Refuses(400, 404);
        herd.MapPost("/webhooks/{webhook}/rotate-secret", Rotate)
            .WithMetadata(Needed)
            .Describe(Tag, "rotateWebhookSecret", "Replace the secret", """
                For the overlap each message carries a signature by either secret, so that the receiver can change over without losing one. A second rotation within
                the overlap ends the older one's at once.
                """)
            .Reads(typeof(RotationInput), "For how long both hold.", WebhookExamples.Rotation)
            .AnswersJson(200, "The new secret; it is not shown again.", typeof(WebhookAnswer), WebhookExamples.WithSecret)
            .Refuses(400, 404, 413, 415);
        herd.MapDeliveries();
    }

    /// <summary>The webhook in the address, or the refusal: another key's is answered like one that is not there.</summary>
    public static (Webhook? Webhook, Problem? Refusal) Find(HttpContext context, Store store, string number)
    {
        var request = context.Herd();
        return long.TryParse(number, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var id)
            && store.Webhooks.Find(request.Herd, id) is { } webhook && Sees(request.Caller, webhook)
            ? (webhook, null)
            : (null, Problem.Of(ProblemTypes.WebhookNotFound, "The herd has no such webhook."));
    }

    private static async Task<IResult> Create(HttpContext context, Store store, Destinations destinations)
    {
        var (draft, refusal) = await WebhookReader.New(context, destinations);
        if (draft is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var (webhook, secret) = await store.Webhooks.Create(request.Herd, draft, Owner(request.Caller), request.Now);
        if (secret is not null)
        {
            return Results.Created($"{context.Request.Path}/{webhook!.Id}", WebhookMapping.Answer(webhook, secret));
        }

        return webhook is null
            ? Problem.Of(ProblemTypes.TooManyWebhooks, $"The location has {WebhookBook.Most} webhooks; delete one first.")
            : Problem.Of(ProblemTypes.WebhookExists, $"Webhook {webhook.Id} of this key has that url. Change it; if its secret is lost, replace that.");
    }

    private static IResult List(HttpContext context, Store store) => new QueryReader(context).Done() is { } refusal
        ? refusal
        : Results.Ok(new WebhookList
        {
            Webhooks = [.. store.Webhooks.List(context.Herd().Herd).Where(w => Sees(context.Caller(), w)).Select(w => WebhookMapping.Answer(w))],
        });

    private static IResult Get(HttpContext context, Store store, string webhook)
    {
        var (found, missing) = Find(context, store, webhook);
        return missing ?? new QueryReader(context).Done() ?? Results.Ok(WebhookMapping.Answer(found!));
    }

    private static async Task<IResult> Patch(HttpContext context, Store store, Destinations destinations, string webhook)
    {
        var (found, missing) = Find(context, store, webhook);
        if (found is null)
        {
            return missing!;
        }

        var (change, refusal) = await WebhookReader.Change(context, destinations);
        if (change is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        return await store.Webhooks.Change(request.Herd, found.Id, change, Owner(request.Caller), request.Now) is { } changed
            ? Results.Ok(WebhookMapping.Answer(changed))
            : Find(context, store, webhook).Refusal!;
    }

    private static async Task<IResult> Delete(HttpContext context, Store store, string webhook)
    {
        var (found, missing) = Find(context, store, webhook);
        return found is not null && await store.Webhooks.Delete(context.Herd().Herd, found.Id)
            ? Results.NoContent()
            : missing ?? Find(context, store, webhook).Refusal!;
    }

    private static async Task<IResult> Rotate(HttpContext context, Store store, string webhook)
    {
        var (found, missing) = Find(context, store, webhook);
        if (found is null)
        {
            return missing!;
        }

        var (hours, refusal) = await WebhookReader.Overlap(context);
        if (refusal is not null)
        {
            return refusal;
        }

        var request = context.Herd();
        return await store.Webhooks.Rotate(request.Herd, found.Id, request.Now + Duration.FromHours(hours)) is { } rotated
            ? Results.Ok(WebhookMapping.Answer(rotated.Webhook!, rotated.Secret))
            : Find(context, store, webhook).Refusal!;
    }

    private static bool Sees(Caller caller, Webhook webhook) => caller.Can(Permissions.Manage) || webhook.CreatedBy == caller.Name;

    private static WebhookOwner Owner(Caller caller) => new(caller.Name, caller.Key);
}
