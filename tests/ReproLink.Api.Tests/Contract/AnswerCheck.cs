using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Contract;

/// <summary>Holds an answer to the document.</summary>
internal sealed class AnswerCheck(ContractSchemas schemas)
{
    private static readonly JsonNode Problem = JsonNode.Parse("""{"$ref":"#/components/schemas/ProblemBody"}""")!;
    private static readonly JsonNode Errors = JsonNode.Parse("""{"$ref":"#/components/schemas/ErrorsAnswer"}""")!;

    /// <summary>What is wrong with an answer; null when nothing is.</summary>
    public string? Fault(ContractRequest request, HttpResponseMessage answer, string body)
    {
        var status = (int)answer.StatusCode;
        var mediaType = answer.Content.Headers.ContentType?.MediaType;
        if (status >= 500)
        {
            return "the service failed";
        }

        if (IsServersOwn(request, answer, body))
        {
            return null;
        }

        if (request.Stray)
        {
            return status < 400 ? null : Refusal(mediaType, body, status);
        }

        if (!request.Operation.Answers.TryGetValue(status, out var forms))
        {
            return $"status {status} is not documented";
        }

        if (forms.Count == 0)
        {
            return body.Length == 0 ? null : "a body where none is documented";
        }

        if (mediaType is null || !forms.TryGetValue(mediaType, out var schema))
        {
            return $"media type {mediaType ?? "none"} is not documented for {status}";
        }

        if (!mediaType.EndsWith("json", StringComparison.Ordinal))
        {
            return body.Length > 0 ? null : "an empty body";
        }

        return Valid(schema, body) ?? (status >= 400 ? Refusal(mediaType, body, status) : null);
    }

    /// <summary>An answer that is a refusal, in one of the two documented forms.</summary>
    public string? Refusal(string? mediaType, string body, int status)
    {
        var (schema, at) = mediaType switch
        {
            "application/problem+json" => (Problem, "status"),
            "application/json" => (Errors, "errors"),
            _ => (null, ""),
        };
        if (schema is null)
        {
            return $"a refusal as {mediaType ?? "nothing"}";
        }

        if (Valid(schema, body) is { } fault)
        {
            return fault;
        }

        var told = JsonNode.Parse(body)![at];
        return (told is JsonArray errors ? errors[0]!["status"] : told)!.GetValue<int>() == status ? null : "another status in the body";
    }

    // The web server refuses a zero byte in the path, and an address of more than 8 KB, before there is a request that anything could answer.
    private static bool IsServersOwn(ContractRequest request, HttpResponseMessage answer, string body) => body.Length == 0
        && ((answer.StatusCode == HttpStatusCode.BadRequest && request.Target.Split('?')[0].Contains("%00", StringComparison.Ordinal))
            || (answer.StatusCode == HttpStatusCode.RequestUriTooLong && request.Target.Length > 8000));

    private string? Valid(JsonNode schema, string body)
    {
        try
        {
            return schemas.Fault(schema, body);
        }
        catch (JsonException broken)
        {
            return "no JSON: " + broken.Message;
        }
    }
}
