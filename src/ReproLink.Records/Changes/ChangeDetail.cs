namespace ReproLink.Records;

/// <summary>A change with what it was about, as it stands when it is read.</summary>
/// <param name="Change">The change.</param>
/// <param name="Fact">The fact appended or withdrawn.</param>
/// <param name="Held">The result held or settled.</param>
public sealed record ChangeDetail(Change Change, StoredFact? Fact, HeldResult? Held);
