namespace ReproLink.Calendar.Protocols;

public static partial class ProtocolLibrary
{
    private static readonly Lazy<IReadOnlyDictionary<string, Protocol>> Loaded = new(() => new Dictionary<string, Protocol>());
}
