using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>
/// A form as the JSON that the readers of the API take: what a page records is judged by the very code that judges what a
/// program posts.
/// </summary>
internal static class FormJson
{
    private static readonly HashSet<string> Numbers = ["parity", "embryoAgeDays", "version"];
    private static readonly HashSet<string> Truths = ["examined", "notDone", "corpusLuteum"];

    /// <summary>One item of a batch. An empty field is an absent property.</summary>
    public static BatchItem Item(IEnumerable<(string Name, string? Value)> fields) => new(0, Element(fields), null, null);

    /// <summary>One object.</summary>
    public static JsonElement Element(IEnumerable<(string Name, string? Value)> fields)
    {
        var item = new JsonObject();
        foreach (var (name, value) in fields)
        {
            if (!string.IsNullOrWhiteSpace(value))
            {
                item[name] = Node(name, value.Trim());
            }
        }

        return JsonSerializer.SerializeToElement(item);
    }

    /// <summary>What was typed, to be shown again.</summary>
    public static IReadOnlyDictionary<string, string> Values(IFormCollection form) =>
        form.Where(f => !f.Key.StartsWith("__", StringComparison.Ordinal)).ToDictionary(f => f.Key, f => f.Value.ToString(), StringComparer.Ordinal);

    /// <summary>What is wrong, a sentence a field. What a page has no field for stands under "".</summary>
    public static IReadOnlyDictionary<string, string> Problems(FieldProblems problems) => problems.List
        .GroupBy(p => p.Field.Split('/')[0], StringComparer.Ordinal)
        .ToDictionary(p => p.Key, p => Sentence(p.First()), StringComparer.Ordinal);

    private static string Sentence(FieldProblem problem) => problem.Value is { } value
        ? T("form.allowed", value is JsonElement { ValueKind: JsonValueKind.String } text ? text.GetString() : value, problem.Allowed)
        : T("form.missing", problem.Allowed);

    // A number that is none, a list that cannot be taken apart: the reader then says what is allowed.
    private static JsonNode? Node(string name, string value) =>
        Numbers.Contains(name) && int.TryParse(value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? number
        : Truths.Contains(name) && value is "yes" or "no" ? value == "yes"
        : name == "identifiers" ? Identifiers(value)
        : name == "confirms" && value.Split('\n') is [var source, var sourceId] ? new JsonObject { ["source"] = source, ["sourceId"] = sourceId }
        : value;

    private static JsonArray Identifiers(string text) => new([.. text
        .Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
        .Select(pair => pair.Split('=', 2, StringSplitOptions.TrimEntries))
        .Select(pair => pair.Length == 2 ? new JsonObject { ["scheme"] = pair[0], ["id"] = pair[1] } : (JsonNode)pair[0])]);
}
