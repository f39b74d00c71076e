using NodaTime;

namespace ReproLink.Calendar.Facts;

/// <summary>
/// The order in which the facts of one animal are folded (rule F3): day, kind, time, then source and sourceId, so that it
/// never depends on the order in which they were posted.
/// </summary>
public sealed class FactOrder : IComparer<Fact>
{
    /// <summary>The one instance.</summary>
    public static readonly FactOrder Instance = new();

    private FactOrder()
    {
    }

    /// <inheritdoc/>
    public int Compare(Fact? x, Fact? y)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        var order = x.Day.CompareTo(y.Day);
        if (order != 0)
        {
            return order;
        }

        order = Rank(x.Kind).CompareTo(Rank(y.Kind));
        if (order != 0)
        {
            return order;
        }

        order = (x.Time ?? LocalTime.Midnight).CompareTo(y.Time ?? LocalTime.Midnight);
        if (order != 0)
        {
            return order;
        }

        order = string.CompareOrdinal(x.Source, y.Source);
        return order != 0 ? order : string.CompareOrdinal(x.SourceId, y.SourceId);
    }

    // The three kinds of service are one step of the day (rule F3), as are do-not-breed and breed-again.
    private static int Rank(FactKind kind) => kind switch
    {
        FactKind.NaturalService or FactKind.EmbryoTransfer => (int)FactKind.Insemination,
        FactKind.BreedAgain => (int)FactKind.DoNotBreed,
        FactKind.Result => (int)FactKind.Sample,
        _ => (int)kind,
    };
}
