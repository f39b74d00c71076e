using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Changes;

/// <summary>What kinds of change are called.</summary>
internal static class ChangeWords
{
    public static readonly Vocabulary<ChangeKind> Kinds = new(
        ("herd", ChangeKind.Herd),
        ("fact", ChangeKind.Fact),
        ("withdrawal", ChangeKind.Withdrawal),
        ("programme", ChangeKind.Programme),
        ("approval", ChangeKind.Approval),
        ("held", ChangeKind.Held),
        ("held-end", ChangeKind.HeldEnd),
        ("protocol", ChangeKind.Protocol),
        ("round", ChangeKind.Round), ("refusal", ChangeKind.Refusal));
}
