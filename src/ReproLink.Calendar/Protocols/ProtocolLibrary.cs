namespace ReproLink.Calendar.Protocols;

/// <summary>The published protocols, read once from the embedded definitions.</summary>
public static partial class ProtocolLibrary
{
    /// <summary>All protocols by id, in the order of their ids.</summary>
    public static IReadOnlyDictionary<string, Protocol> All => Loaded.Value;

    /// <summary>The protocol of an id; null when there is none.</summary>
    public static Protocol? Find(string? id) => id is not null && All.TryGetValue(id, out var protocol) ? protocol : null;
}
