namespace ReproLink.Calendar.Pregnancies;

/// <summary>Gestation length by breed in days (5.8). Source: published breed means as collected in extension tables.</summary>
public static class Gestation
{
    /// <summary>Length for breeds not in the table.</summary>
    public const int Others = 283;

    // Cow, heifer.
    private static readonly Dictionary<string, (int Cow, int Heifer)> Lengths = new(StringComparer.OrdinalIgnoreCase)
    {
        ["Holstein"] = (279, 278),
        ["Jersey"] = (280, 278),
        ["Brown Swiss"] = (288, 287),
        ["Ayrshire"] = (282, 282),
        ["Guernsey"] = (286, 285),
        ["Milking Shorthorn"] = (281, 279),
        ["Angus"] = (281, 281),
        ["Hereford"] = (285, 285),
        ["Charolais"] = (289, 289),
        ["Limousin"] = (289, 289),
        ["Simmental"] = (287, 287),
        ["Brahman"] = (292, 292),
    };

    /// <summary>The length for one breed; unknown or absent = <see cref="Others"/>.</summary>
    public static int Of(string? breed, bool heifer) =>
        breed is not null && Lengths.TryGetValue(breed.Trim(), out var length)
            ? heifer ? length.Heifer : length.Cow
            : Others;

    /// <summary>The dam's length; the mean of both breeds if the service sire's is known, half a day up.</summary>
    public static int Of(string? damBreed, string? sireBreed, bool heifer)
    {
        var dam = Of(damBreed, heifer);
        return sireBreed is null ? dam : (dam + Of(sireBreed, heifer) + 1) / 2;
    }
}
