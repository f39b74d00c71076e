using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>Some kinds of fact.</summary>
public readonly record struct KindSet
{
    public KindSet(params ReadOnlySpan<FactKind> kinds)
    {
        foreach (var kind in kinds)
        {
            Bits |= 1L << (int)kind;
        }
    }

    /// <summary>One bit a kind, as queries compare them.</summary>
    internal long Bits { get; }

    public bool Contains(FactKind kind) => ((Bits >> (int)kind) & 1) != 0;
}
