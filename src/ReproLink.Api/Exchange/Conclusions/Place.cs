using System.Globalization;
using NodaTime;

namespace ReproLink.Api.Exchange.Conclusions;

/// <summary>A place in the order of what is computed: since when it is so, then its name.</summary>
internal sealed record Place(Instant Modified, string Name) : IComparable<Place>
{
    private const long MostTicks = 1L << 60;

    public int CompareTo(Place? other)
    {
        var order = Modified.CompareTo(other!.Modified);
        return order != 0 ? order : string.CompareOrdinal(Name, other.Name);
    }

    /// <summary>Reads the text form; null when it is none.</summary>
    public static Place? Read(string text)
    {
        var dash = text.IndexOf('-', StringComparison.Ordinal);
        return dash > 0
            && long.TryParse(text.AsSpan(0, dash), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var ticks)
            && ticks is >= 0 and < MostTicks
                ? new Place(Instant.FromUnixTimeTicks(ticks), text[(dash + 1)..])
                : null;
    }

    public override string ToString() => $"{Modified.ToUnixTimeTicks().ToString("x", CultureInfo.InvariantCulture)}-{Name}";
}
