using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>The texts of a fact. Most facts have none; those of a herd repeat, so readers share them.</summary>
internal sealed record FactTexts
{
    public string? Sire { get; init; }

    public string? SireBreed { get; init; }

    public string? Technician { get; init; }

    public string? EmbryoBreed { get; init; }

    public string? Breed { get; init; }

    public string? Pen { get; init; }

    public IReadOnlyList<AnimalIdentifier>? Identifiers { get; init; }

    public string? Specimen { get; init; }

    public string? Tube { get; init; }

    public string? Unit { get; init; }

    public string? Assay { get; init; }

    public string? Examiner { get; init; }

    public string? Reason { get; init; }

    public string? Source { get; init; }

    public string? SourceId { get; init; }

    public static readonly FactTexts None = new();

    /// <summary>The JSON kept; null when there is no text at all.</summary>
    public string? Write()
    {
        var json = JsonSerializer.Serialize(this, RecordsJson.Compact.FactTexts);
        return json.Length == 2 ? null : json;
    }

    public static FactTexts Read(ReadOnlySpan<char> json) =>
        JsonSerializer.Deserialize(json, RecordsJson.Compact.FactTexts) ?? None;
}

/// <summary>JSON that only the store reads.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(FactTexts))]
[JsonSerializable(typeof(KeptDraft))]
[JsonSerializable(typeof(List<string>))]
[JsonSerializable(typeof(List<LocationKey>))]
[JsonSerializable(typeof(List<AppendAnswer>))]
internal sealed partial class RecordsJson : JsonSerializerContext
{
    /// <summary>Writes letters beyond ASCII as they are: the text never meets a browser.</summary>
    public static readonly RecordsJson Compact = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    });
}
