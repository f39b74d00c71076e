using System.Text.Json;
using System.Text.Json.Nodes;
using ReproLink.Api.Facts;
using ReproLink.Api.Intake;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>How senders' files are read, every version.</summary>
internal static class MappingFile
{
    private const int Most = 10_000;

    public static JsonObject Write(HerdRecords records) => new()
    {
        ["results"] = Write(records.ResultMappings()),
        ["facts"] = Write(records.FactMappings()),
    };

    public static (IReadOnlyList<SavedMapping> Results, IReadOnlyList<SavedMapping> Facts) Read(ObjectReader reader)
    {
        var results = Items(reader, "results", mapping => MappingEndpoints.Read(mapping));
        var facts = Items(reader, "facts", mapping => FactMappingReader.Read(mapping));
        reader.Done();
        return (results, facts);
    }

    private static JsonArray Write(IEnumerable<SavedMapping> mappings) => new([.. mappings.Select(m => new JsonObject
    {
        ["sender"] = m.Sender,
        ["version"] = m.Version,
        ["savedBy"] = m.SavedBy,
        ["savedAt"] = ArchiveText.Of(m.Saved),
        ["mapping"] = JsonNode.Parse(m.Json),
    })]);

    private static List<SavedMapping> Items(ObjectReader reader, string name, Action<ObjectReader> judge) => ArchiveJson.Items(reader, name, Most, item =>
    {
        if (item.Object("mapping", required: true) is { } mapping)
        {
            judge(mapping);
        }

        // Kept as it was saved, not as it would be written now.
        var json = item.Properties(int.MaxValue).FirstOrDefault(p => p.Name == "mapping").Value;
        return new SavedMapping(
            item.Text("sender", TextRule.Name, required: true) ?? "", item.Integer("version", 1, int.MaxValue, required: true) ?? 0,
            json.ValueKind == JsonValueKind.Object ? json.GetRawText() : "{}", item.Instant("savedAt", required: true) ?? default,
            item.Text("savedBy", ArchiveJson.By, required: true) ?? "");
    });
}
