using ReproLink.Api.Changes;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Webhooks.Sending;
using ReproLink.Records;

namespace ReproLink.Api.Webhooks;

/// <summary>Reads what callers want of a webhook.</summary>
internal static class WebhookReader
{
    private const int LongestOverlapHours = 168;
    private const int UsualOverlapHours = 24;

    private static readonly TextRule Url = new(Destinations.LongestUrl, true);
    private static readonly Vocabulary<bool> Wanted = new(("active", true), ("paused", false));

    public static async Task<(WebhookDraft? Draft, Problem? Refusal)> New(HttpContext context, Destinations destinations)
    {
        var (read, refusal) = await Read(context, destinations, isNew: true);
        return read is null ? (null, refusal) : (new WebhookDraft(read.Url!, read.Name, read.Kinds ?? ChangeKinds.All), null);
    }

    public static Task<(WebhookChange? Change, Problem? Refusal)> Change(HttpContext context, Destinations destinations) =>
        Read(context, destinations, isNew: false);

    /// <summary>For how many hours the old secret holds beside a new one.</summary>
    public static async Task<(int Hours, Problem? Refusal)> Overlap(HttpContext context)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return (0, refusal);
        }

        var reader = new ObjectReader(body.Root, new FieldProblems());
        var hours = reader.Integer("overlapHours", 0, LongestOverlapHours);
        reader.Done();
        return reader.Problems.Any ? (0, Problem.OfBody(reader.Problems.List)) : (hours ?? UsualOverlapHours, null);
    }

    private static async Task<(WebhookChange? Change, Problem? Refusal)> Read(HttpContext context, Destinations destinations, bool isNew)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return (null, refusal);
        }

        var reader = new ObjectReader(body.Root, new FieldProblems());
        var url = await Destination(reader, destinations, isNew, context.RequestAborted);
        var name = reader.Text("name", TextRule.Name);
        var kinds = reader.Words("kinds", ChangeWords.Kinds, "kind of change");
        var active = isNew ? null : reader.Word("state", Wanted);
        reader.Done();
        return reader.Problems.Any
            ? (null, Problem.OfBody(reader.Problems.List))
            : (new WebhookChange(url, name, kinds is null ? null : new ChangeKinds([.. kinds]), active), null);
    }

    private static async Task<string?> Destination(ObjectReader reader, Destinations destinations, bool required, CancellationToken ct)
    {
        if (reader.Text("url", Url, required) is not { } text)
        {
            return null;
        }

        var (url, why) = await destinations.Judge(text, ct);
        if (why is not null)
        {
            reader.Refuse("url", ProblemTypes.InvalidValue, destinations.Allowed, $"'url' is refused: {why}.");
        }

        return url;
    }
}
