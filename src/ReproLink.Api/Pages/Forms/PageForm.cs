using System.Text.Json;
using Microsoft.Extensions.Primitives;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;
using ReproLink.Web.Forms;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages.Forms;

/// <summary>A form somebody sent, as it reached a page.</summary>
/// <param name="Request">Who sent it, and about which herd.</param>
/// <param name="Values">What it carries; blank fields are absent.</param>
internal sealed record PageForm(PageRequest Request, IReadOnlyDictionary<string, StringValues> Values)
{
    private static readonly string[] Own = ["once", FormDoor.AgainField, "__RequestVerificationToken"];

    /// <summary>Why it is only to be shown again, filled in: its page had grown old. Null = do what it asks.</summary>
    public string? Again => Values.ContainsKey(FormDoor.AgainField) ? Say.LookOver : null;

    /// <summary>A field without blanks around it; null = empty or absent.</summary>
    public string? Text(string name) => Values.TryGetValue(name, out var values) && values.ToString().Trim() is { Length: > 0 } text ? text : null;

    /// <summary>A field as it was typed.</summary>
    public string? Raw(string name) => Values.TryGetValue(name, out var values) ? values.ToString() : null;

    /// <summary>The values of a field that may be there several times.</summary>
    public IReadOnlyList<string> All(string name) => Values.TryGetValue(name, out var values) ? [.. values.OfType<string>()] : [];

    /// <summary>The form as the object an endpoint would have got, so that one reader judges both.</summary>
    public static ObjectBody Object(Action<Utf8JsonWriter> write)
    {
        var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }

        return ObjectBody.Of(buffer.ToArray()).Body!;
    }

    /// <summary>Fields of the form as properties of the same names.</summary>
    public ObjectBody Object(params ReadOnlySpan<string> names)
    {
        var fields = names.ToArray();
        return Object(json =>
        {
            foreach (var name in fields)
            {
                if (Text(name) is { } text)
                {
                    json.WriteString(name, text);
                }
            }
        });
    }

    /// <summary>What makes a form that is sent twice be done once.</summary>
    public IdempotencyRecord? Once(HttpContext context, ObjectBody body) => Once(context, body.Bytes);

    /// <inheritdoc cref="Once(HttpContext, ObjectBody)"/>
    public IdempotencyRecord? Once(HttpContext context, byte[] body) => Text("once") is { Length: <= 100 } once
        ? IdempotencyHeader.Record(context.Request.Method, context.Request.Path, Request.Caller, once, body)
        : null;

    /// <summary>The form to be shown again, with what is wrong in it.</summary>
    public FormState Shown(DeskAnswer? answer = null) => answer is null ? Shown(Again) : Shown(PageProblems.Of(answer));

    /// <inheritdoc cref="Shown(DeskAnswer)"/>
    public FormState Shown(string? summary) => new(Typed(), new Dictionary<string, string>(), summary);

    /// <inheritdoc cref="Shown(DeskAnswer)"/>
    public FormState Shown(ProblemBody problem) => new(Typed(), PageProblems.Fields(problem), problem.Detail);

    private Dictionary<string, string> Typed() =>
        Values.Where(v => !Own.Contains(v.Key)).ToDictionary(v => v.Key, v => v.Value.ToString(), StringComparer.Ordinal);
}
