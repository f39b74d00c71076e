namespace ReproLink.Records;

/// <summary>Some kinds of change.</summary>
public readonly record struct ChangeKinds
{
    public ChangeKinds(params ReadOnlySpan<ChangeKind> kinds)
    {
        foreach (var kind in kinds)
        {
            Bits |= 1L << (int)kind;
        }
    }

    private ChangeKinds(long bits) => Bits = bits;

    /// <summary>Every kind there is.</summary>
    public static ChangeKinds All { get; } = new(Enum.GetValues<ChangeKind>());

    /// <summary>One bit a kind, as queries compare them.</summary>
    internal long Bits { get; }

    /// <summary>The kinds, in order.</summary>
    public IReadOnlyList<ChangeKind> List
    {
        get
        {
            var bits = Bits;
            return [.. Enum.GetValues<ChangeKind>().Where(kind => ((bits >> (int)kind) & 1) != 0)];
        }
    }

    internal static ChangeKinds Of(long bits) => new(bits);
}
