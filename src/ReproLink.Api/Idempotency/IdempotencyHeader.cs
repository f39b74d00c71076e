using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.Composition;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Idempotency;

/// <summary>The header that makes a write repeatable: the same key and body is answered the same and done once.</summary>
internal static class IdempotencyHeader
{
    public const string Name = "Idempotency-Key";

    public static readonly ParameterDoc Doc = new(
        Name, "Any text of the caller's own. Sent again with the same body, the first answer is given again; with another body the answer is 409. Kept for a week.",
        "7f0c1d", InHeader: true);

    /// <summary>What was sent, or nothing, or the refusal.</summary>
    public static (IdempotencyRecord? Record, Problem? Refusal) Of(HttpContext context, byte[] body)
    {
        if (!context.Request.Headers.TryGetValue(Name, out var sent))
        {
            return (null, null);
        }

        var key = sent.ToString();
        if (sent.Count != 1 || !TextRule.Name.Accepts(key))
        {
            var problems = new FieldProblems();
            problems.Add(ProblemTypes.InvalidValue, Name, key, TextRule.Name.Allowed, $"The header {Name} is not allowed; allowed: one {TextRule.Name.Allowed}.");
            return (null, Problem.OfQuery(problems.List));
        }

        return (Record(context.Request.Method, $"{context.Request.Path}{context.Request.QueryString} {context.Request.ContentType}", context.Caller(), key, body), null);
    }

    /// <summary>A key with the request it stands for.</summary>
    public static IdempotencyRecord Record(string method, string address, Caller caller, string key, byte[] body)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes($"{method} {address}\n"));
        hash.AppendData(body);
        return new IdempotencyRecord(caller.Name, key, hash.GetHashAndReset());
    }

    /// <summary>The key stands for another request.</summary>
    public static Problem Reused => Problem.Of(ProblemTypes.IdempotencyKeyReused, $"The {Name} was used before with another request. Nothing was stored.");

    /// <summary>An answer in the form in which it is kept.</summary>
    public static StoredAnswer Keep<T>(int status, T answer) =>
        new(status, RequestBody.Json, JsonSerializer.SerializeToUtf8Bytes(answer, JsonSetup.Options));

    /// <summary>What the store did with it, as an answer.</summary>
    public static IResult Answer(OnceStatus status, StoredAnswer? answer) => status == OnceStatus.Conflict
        ? Reused
        : new StoredResult(answer!);

    private sealed class StoredResult(StoredAnswer answer) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext)
        {
            httpContext.Response.StatusCode = answer.Status;
            httpContext.Response.ContentType = answer.ContentType;
            return httpContext.Response.Body.WriteAsync(answer.Body, httpContext.RequestAborted).AsTask();
        }
    }
}
