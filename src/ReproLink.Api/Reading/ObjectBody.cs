using System.Text.Json;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Reading;

/// <summary>A body that is one JSON object, with its bytes as received.</summary>
internal sealed class ObjectBody : IDisposable
{
    private readonly JsonDocument _document;

    private ObjectBody(JsonDocument document, byte[] bytes) => (_document, Bytes) = (document, bytes);

    public JsonElement Root => _document.RootElement;

    public byte[] Bytes { get; }

    public static async Task<(ObjectBody? Body, Problem? Refusal)> Read(HttpContext context)
    {
        var (_, bytes, refusal) = await RequestBody.Read(context, RequestBody.Json);
        if (refusal is not null)
        {
            return (null, refusal);
        }

        return Of(bytes);
    }

    /// <summary>An object that came another way than as a body.</summary>
    public static (ObjectBody? Body, Problem? Refusal) Of(byte[] bytes)
    {
        var (document, refusal) = JsonText.Parse(bytes);
        if (document is not null && document.RootElement.ValueKind != JsonValueKind.Object)
        {
            document.Dispose();
            return (null, Problem.Of(ProblemTypes.InvalidRequest, "The body is not a JSON object; allowed: one object."));
        }

        return document is null ? (null, refusal) : (new ObjectBody(document, bytes), null);
    }

    public void Dispose() => _document.Dispose();
}
