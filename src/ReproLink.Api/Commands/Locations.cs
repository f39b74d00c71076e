using ReproLink.Records;

namespace ReproLink.Api.Commands;

/// <summary>Locations as typed: scheme/id.</summary>
internal static class Locations
{
    public static LocationKey Read(string text)
    {
        var at = text.IndexOf('/', StringComparison.Ordinal);
        return at > 0 && at < text.Length - 1 && !text.AsSpan(at + 1).Contains('/')
            ? new LocationKey(text[..at], text[(at + 1)..])
            : throw new CommandException($"--location {text}: write scheme/id, e.g. local/north-ridge.");
    }

    public static string Text(LocationKey location) => $"{location.Scheme}/{location.Id}";
}
