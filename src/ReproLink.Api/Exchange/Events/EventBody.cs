using System.Text.Json;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Exchange.Events;

/// <summary>The bytes of one message, or of an array of them.</summary>
internal static class EventBody
{
    public static async Task<(JsonDocument? Document, Problem? Refusal)> One(HttpContext context)
    {
        var (document, refusal) = await Parse(context);
        return document is { RootElement.ValueKind: not JsonValueKind.Object }
            ? Refused(document, ProblemTypes.InvalidRequest, "The body is not a JSON object; allowed: one message. Arrays go to the same address under /batches.")
            : (document, refusal);
    }

    public static async Task<(JsonDocument? Document, Problem? Refusal)> Many(HttpContext context)
    {
        var (document, refusal) = await Parse(context);
        return document?.RootElement switch
        {
            null => (null, refusal),
            { ValueKind: not JsonValueKind.Array } =>
                Refused(document, ProblemTypes.BadBatch, "The body is no array; allowed: a bare array of messages. Nothing was stored."),
            var array when array.Value.GetArrayLength() > BatchBody.MaxItems =>
                Refused(document, ProblemTypes.BodyTooLarge, $"The array has {array.Value.GetArrayLength()} items; allowed: at most {BatchBody.MaxItems}. Nothing was stored."),
            _ => (document, null),
        };
    }

    private static async Task<(JsonDocument? Document, Problem? Refusal)> Parse(HttpContext context)
    {
        var (_, bytes, refusal) = await RequestBody.Read(context, RequestBody.Json);
        return refusal is null ? JsonText.Parse(bytes) : (null, refusal);
    }

    private static (JsonDocument?, Problem?) Refused(JsonDocument document, ProblemType type, string detail)
    {
        document.Dispose();
        return (null, Problem.Of(type, detail));
    }
}
