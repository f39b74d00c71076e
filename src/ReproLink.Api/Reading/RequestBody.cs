using System.Text;
using Microsoft.Net.Http.Headers;
using ReproLink.Api.Limits;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Reading;

/// <summary>The bytes of a body, read whole and checked before anything is understood.</summary>
internal static class RequestBody
{
    public const string Json = "application/json";
    public const string Csv = "text/csv";

    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <summary>In which letters CSV may come.</summary>
    public enum Letters
    {
        /// <summary>UTF-8; anything else is refused.</summary>
        Utf8,

        /// <summary>Whatever the sender's mapping says: the bytes are handed on as they came.</summary>
        OfTheFile,
    }

    /// <summary>Reads a body of one of the allowed media types.</summary>
    /// <returns>Media type and bytes without a byte order mark, or the refusal.</returns>
    public static Task<(string MediaType, byte[] Bytes, Problem? Refusal)> Read(HttpContext context, params string[] allowed) =>
        Read(context, Letters.Utf8, allowed);

    /// <inheritdoc cref="Read(HttpContext, string[])"/>
    public static async Task<(string MediaType, byte[] Bytes, Problem? Refusal)> Read(HttpContext context, Letters letters, params string[] allowed)
    {
        var request = context.Request;
        if (MediaType(request, allowed) is not { } mediaType)
        {
            var sent = request.ContentType is { Length: > 0 } type ? $"'{type}' is" : "A body without Content-Type is";
            return ("", [], Problem.Of(ProblemTypes.MediaTypeNotSupported, $"{sent} not read here; allowed: {string.Join(", ", allowed)}, in UTF-8."));
        }

        var most = context.RequestServices.GetRequiredService<ServiceLimits>().BodyBytes;
        if (request.ContentLength > most || await ReadBytes(request, most, context.RequestAborted) is not { } bytes)
        {
            return ("", [], Problem.Of(ProblemTypes.BodyTooLarge, $"The body is larger than {most} bytes. Nothing was stored."));
        }

        var problem = mediaType == Csv ? ProblemTypes.BadCsv : ProblemTypes.BadJson;
        return (letters == Letters.OfTheFile && mediaType == Csv) || IsUtf8(bytes)
            ? (mediaType, bytes, null)
            : ("", [], Problem.Of(problem, "The body is not UTF-8. Nothing was stored."));
    }

    private static string? MediaType(HttpRequest request, string[] allowed) =>
        MediaTypeHeaderValue.TryParse(request.ContentType, out var type)
        && (!type.Charset.HasValue || type.Charset.Equals("utf-8", StringComparison.OrdinalIgnoreCase) || type.Charset.Equals("\"utf-8\"", StringComparison.OrdinalIgnoreCase))
            ? Array.Find(allowed, a => type.MediaType.Equals(a, StringComparison.OrdinalIgnoreCase))
            : null;

    private static async Task<byte[]?> ReadBytes(HttpRequest request, int most, CancellationToken ct)
    {
        using var memory = new MemoryStream(request.ContentLength is { } length ? (int)length : 4096);
        var buffer = new byte[16 * 1024];
        int read;
        while ((read = await request.Body.ReadAsync(buffer, ct)) > 0)
        {
            if (memory.Length + read > most)
            {
                return null;
            }

            memory.Write(buffer, 0, read);
        }

        var bytes = memory.ToArray();
        return bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? bytes[3..] : bytes;
    }

    private static bool IsUtf8(byte[] bytes)
    {
        try
        {
            Strict.GetCharCount(bytes);
            return true;
        }
        catch (DecoderFallbackException)
        {
            return false;
        }
    }
}
