using System.Collections.Frozen;

namespace ReproLink.Api.Facts;

/// <summary>Which properties a sender's file may say of each kind of fact; a test holds it to <see cref="FactReader"/>.</summary>
internal static class FactProperties
{
    /// <summary>Begins the property that is an identifier in a scheme: <c>identifiers.us.bovine</c>.</summary>
    public const string Identifier = "identifiers.";

    /// <summary>What every kind carries.</summary>
    public static readonly FrozenSet<string> Shared = FrozenSet.Create("animal", "sourceId", "date", "time");

    /// <summary>What only some kinds carry. A confirmation is a person's word, not a file's.</summary>
    private static readonly FrozenDictionary<string, string[]> Own = new Dictionary<string, string[]>
    {
        ["animal"] = ["born", "breed", "parity", "pen"],
        ["calving"] = [],
        ["insemination"] = ["sire", "sireBreed", "technician"],
        ["natural-service"] = ["sire", "sireBreed"],
        ["embryo-transfer"] = ["embryoAgeDays", "embryoBreed", "technician", "sire", "sireBreed"],
        ["exposure"] = ["until", "sire", "sireBreed"],
        ["oestrus"] = [],
        ["loss"] = ["examined"],
        ["treatment"] = ["agent", "notDone", "reason"],
        ["examination"] = ["method", "outcome", "corpusLuteum", "examiner"],
        ["do-not-breed"] = ["reason"],
        ["breed-again"] = [],
        ["dry-off"] = [],
        ["arrival"] = [],
        ["departure"] = ["reason"],
        ["sample"] = ["specimen", "tube"],
    }.ToFrozenDictionary();

    public static IReadOnlyList<string> Kinds { get; } = [.. Own.Keys.Order(StringComparer.Ordinal)];

    public static bool Has(string kind, string property) =>
        Shared.Contains(property)
        || (Own.TryGetValue(kind, out var own) && own.Contains(property))
        || (kind == "animal" && property.StartsWith(Identifier, StringComparison.Ordinal) && property.Length > Identifier.Length);

    /// <summary>The list in a refusal.</summary>
    public static string Allowed(string kind) => "one of " + string.Join(", ",
        Shared.Order(StringComparer.Ordinal).Concat(Own.GetValueOrDefault(kind, [])).Concat(kind == "animal" ? [Identifier + "SCHEME"] : []));

    /// <summary>Whether a property's text is one of some words, and which.</summary>
    public static string? Words(string property) => property switch
    {
        "agent" => FactVocabulary.Agents.Allowed,
        "method" => FactVocabulary.ExaminationMethods.Allowed,
        "outcome" => FactVocabulary.Outcomes.Allowed,
        "specimen" => FactVocabulary.Specimens.Allowed,
        "examined" or "notDone" or "corpusLuteum" => "true or false",
        _ => null,
    };

    /// <summary>Whether a text may stand for a property as far as its words go.</summary>
    public static bool Accepts(string property, string text) => property switch
    {
        "agent" => FactVocabulary.Agents.TryRead(text, out _),
        "method" => FactVocabulary.ExaminationMethods.TryRead(text, out _),
        "outcome" => FactVocabulary.Outcomes.TryRead(text, out _),
        "specimen" => FactVocabulary.Specimens.TryRead(text, out _),
        "examined" or "notDone" or "corpusLuteum" => text is "true" or "false",
        _ => Reading.TextRule.Label.Accepts(text),
    };
}
