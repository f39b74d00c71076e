namespace ReproLink.Benchmarks.Measuring;

/// <summary>How much is measured.</summary>
public sealed record Sizes(int FoldAnimals, int ListAnimals, int HttpAnimals, int MostAnimals, int Rounds, TimeSpan Load)
{
    /// <summary>The sizes the budgets are stated for.</summary>
    public static readonly Sizes Full = new(10_000, 10_000, 100_000, 1_000_000, 7, TimeSpan.FromSeconds(3));

    /// <summary>Enough to see that everything runs.</summary>
    public static readonly Sizes Quick = new(2_000, 2_000, 10_000, 50_000, 3, TimeSpan.FromSeconds(1));
}
