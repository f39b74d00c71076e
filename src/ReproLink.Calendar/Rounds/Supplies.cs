namespace ReproLink.Calendar.Rounds;

/// <summary>What to take along.</summary>
/// <param name="Tubes">Tubes, with as many spares as needles.</param>
/// <param name="Labels">Labels; spare tubes are labelled when they are used.</param>
/// <param name="Needles">One needle an animal, plus a tenth as spares, rounded up, at least two (rule B3).</param>
/// <param name="SharpsContainers">Closed containers for used needles.</param>
public sealed record Supplies(int Tubes, int Labels, int Needles, int SharpsContainers)
{
    // A one-litre container takes about a hundred needles and is closed at three quarters.
    private const int NeedlesAContainer = 75;

    /// <summary>For a number of draws.</summary>
    public static Supplies For(int draws)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(draws);
        if (draws == 0)
        {
            return new Supplies(0, 0, 0, 0);
        }

        var needles = draws + Math.Max(2, (draws + 9) / 10);
        return new Supplies(needles, draws, needles, (needles + NeedlesAContainer - 1) / NeedlesAContainer);
    }
}
