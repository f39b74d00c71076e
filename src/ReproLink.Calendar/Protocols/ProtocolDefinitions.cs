using System.Collections.Immutable;

namespace ReproLink.Calendar.Protocols;

public static partial class ProtocolLibrary
{
    private const string ResourcePrefix = "ReproLink.Calendar.Protocols.Data.";

    private static readonly Lazy<IReadOnlyDictionary<string, Protocol>> Loaded = new(ReadEmbedded);

    /// <summary>One broken definition stops the whole library: a programme must never run on a part of it.</summary>
    private static ImmutableSortedDictionary<string, Protocol> ReadEmbedded() =>
        typeof(ProtocolLibrary).Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(ResourcePrefix, StringComparison.Ordinal))
            .Select(name => ProtocolReader.Read(name[ResourcePrefix.Length..], ReadText(name)))
            .ToImmutableSortedDictionary(p => p.Id, p => p, StringComparer.Ordinal);

    private static string ReadText(string resource)
    {
        using var stream = typeof(ProtocolLibrary).Assembly.GetManifestResourceStream(resource)!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
