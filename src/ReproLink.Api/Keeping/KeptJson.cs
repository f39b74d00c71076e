using System.Buffers;
using System.Text;
using System.Text.Json;
using ReproLink.Api.Composition;

namespace ReproLink.Api.Keeping;

/// <summary>
/// An answer written once and sent many times. What differs from one request to the next, such as the moment it rests on, is cut out
/// and written anew for each.
/// </summary>
internal sealed class KeptJson
{
    private readonly byte[][] _parts;

    private KeptJson(byte[][] parts) => _parts = parts;

    /// <summary>A property as it stands in the answer, to be cut out or put in.</summary>
    public static byte[] Property<T>(string name, T value) =>
        [.. Encoding.UTF8.GetBytes($"\"{name}\":"), .. JsonSerializer.SerializeToUtf8Bytes(value, JsonSetup.Options)];

    /// <summary>Writes an answer, and cuts out properties that it has in this order.</summary>
    public static KeptJson Of<T>(T answer, params ReadOnlySpan<byte[]> cutOut)
    {
        var json = JsonSerializer.SerializeToUtf8Bytes(answer, JsonSetup.Options).AsSpan();
        var parts = new byte[cutOut.Length + 1][];
        for (var i = 0; i < cutOut.Length; i++)
        {
            // Inside a text its quotes would be escaped: the first place is the property itself.
            var at = json.IndexOf(cutOut[i]);
            parts[i] = json[..at].ToArray();
            json = json[(at + cutOut[i].Length)..];
        }

        parts[^1] = json.ToArray();
        return new KeptJson(parts);
    }

    /// <summary>The answer with other properties put in where some were cut out.</summary>
    public IResult With(params byte[][] putIn) => new Answer(_parts, putIn);

    private sealed class Answer(byte[][] parts, byte[][] putIn) : IResult
    {
        public async Task ExecuteAsync(HttpContext httpContext)
        {
            var response = httpContext.Response;
            response.ContentType = "application/json; charset=utf-8";
            response.ContentLength = parts.Sum(p => (long)p.Length) + putIn.Sum(p => (long)p.Length);
            for (var i = 0; i < putIn.Length; i++)
            {
                response.BodyWriter.Write(parts[i]);
                response.BodyWriter.Write(putIn[i]);
            }

            await response.BodyWriter.WriteAsync(parts[^1], httpContext.RequestAborted);
        }
    }
}
