using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Exchange.Reproduction;

/// <summary>Breeds: the standard gives codes of a scheme, gestation lengths are by breed in plain words.</summary>
internal static class Breeds
{
    // Codes of the scheme icar.breed-3; other codes stay as they came and have the general gestation length.
    private static readonly Dictionary<string, string> Words = new(StringComparer.OrdinalIgnoreCase)
    {
        ["HOL"] = "Holstein",
        ["JER"] = "Jersey",
        ["BSW"] = "Brown Swiss",
        ["AYS"] = "Ayrshire",
        ["GUE"] = "Guernsey",
        ["AAN"] = "Angus",
        ["HER"] = "Hereford",
        ["CHA"] = "Charolais",
        ["LIM"] = "Limousin",
        ["SIM"] = "Simmental",
    };

    public static string? Read(ObjectReader reader, string name)
    {
        var identifier = reader.Object(name);
        var id = identifier?.Text("id", TextRule.Label, required: true);
        return id is not null && Words.TryGetValue(id, out var word) ? word : id;
    }

    public static ExchangeIdentifier? Write(string? breed) =>
        breed is null ? null : new ExchangeIdentifier { Scheme = ExchangeWords.BreedScheme, Id = breed };
}
