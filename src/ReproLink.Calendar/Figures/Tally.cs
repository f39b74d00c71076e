using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Figures;

/// <summary>Counts one line of a figure, case by case, with what it leaves out.</summary>
/// <param name="keep">Whether the animals are wanted, not only their number.</param>
internal sealed class Tally(bool keep)
{
    public const string Wilson = "Wilson score interval";
    public const string Student = "mean with Student's interval";

    private readonly int[] _leftOut = new int[Enum.GetValues<LeftOutReason>().Max(r => (int)r) + 1];
    private readonly List<FigureCase> _cases = [];
    private List<double>? _days;
    private int _hits;
    private int _of;

    public int Hits => _hits;

    public int Of => _of;

    public IReadOnlyList<FigureCase> Cases => _cases;

    public void Count(bool hit, string animal, Day day, FactId? fact = null, int? days = null)
    {
        _of++;
        _hits += hit ? 1 : 0;
        Keep(new FigureCase(animal, day, hit ? CasePart.Counted : CasePart.NotCounted) { Fact = fact, Days = days });
    }

    public void AddDays(int days, string animal, Day day, FactId? fact = null)
    {
        (_days ??= []).Add(days);
        _of++;
        Keep(new FigureCase(animal, day, CasePart.Counted) { Fact = fact, Days = days });
    }

    public void LeaveOut(LeftOutReason reason, string animal, Day day, FactId? fact = null)
    {
        _leftOut[(int)reason]++;
        Keep(new FigureCase(animal, day, CasePart.LeftOut) { Fact = fact, Reason = reason });
    }

    public void LeaveOut(LeftOutReason reason, int count) => _leftOut[(int)reason] += count;

    /// <summary>Adds what another counted.</summary>
    public void Take(Tally other)
    {
        _hits += other._hits;
        _of += other._of;
        for (var i = 0; i < _leftOut.Length; i++)
        {
            _leftOut[i] += other._leftOut[i];
        }

        _cases.AddRange(other._cases);
    }

    /// <summary>The counted of the counted and not counted.</summary>
    public FigureLine Share(string key, string label)
    {
        var share = new Proportion(_hits, _of);
        return Finish(new FigureLine(key, label, FigureUnit.Share, _hits, _of)
        {
            Value = share.Value,
            Limits = share.Wilson(),
            Method = Wilson,
        });
    }

    /// <summary>The mean of the days added.</summary>
    public FigureLine Mean(string key, string label)
    {
        var summary = new Summary(_days ?? []);
        return Finish(new FigureLine(key, label, FigureUnit.Days, (int)summary.Sum, summary.Count)
        {
            Value = summary.Mean,
            Median = summary.Median,
            Limits = summary.MeanLimits(),
            Method = Student,
        });
    }

    /// <summary>A line with the left-out and the cases of this tally, and a word why there is no value.</summary>
    public FigureLine Finish(FigureLine line) => line with
    {
        NoValue = line.Value is null ? line.NoValue ?? "nothing to count" : null,
        LeftOut = [.. _leftOut.Select((count, reason) => new LeftOut((LeftOutReason)reason, count)).Where(l => l.Count > 0)],
        Cases = _cases,
    };

    private void Keep(FigureCase one)
    {
        if (keep)
        {
            _cases.Add(one);
        }
    }
}

/// <summary>Tallies by a key, in the order of the keys.</summary>
/// <typeparam name="TKey">The key.</typeparam>
internal sealed class Tallies<TKey>
    where TKey : notnull
{
    private readonly bool _keep;
    private readonly SortedDictionary<TKey, Tally> _tallies;

    /// <param name="keep">Whether the animals are wanted.</param>
    /// <param name="always">Keys that stand also where nothing is counted.</param>
    public Tallies(bool keep, params TKey[] always)
    {
        _keep = keep;
        var order = typeof(TKey) == typeof(string) ? (IComparer<TKey>)StringComparer.Ordinal : Comparer<TKey>.Default;
        _tallies = new SortedDictionary<TKey, Tally>(always.ToDictionary(k => k, _ => new Tally(keep)), order);
    }

    public Tally this[TKey key]
    {
        get
        {
            if (!_tallies.TryGetValue(key, out var tally))
            {
                _tallies.Add(key, tally = new Tally(_keep));
            }

            return tally;
        }
    }

    public IEnumerable<FigureLine> Shares(Func<TKey, (string Key, string Label)> name) => _tallies.Select(t =>
    {
        var (key, label) = name(t.Key);
        return t.Value.Share(key, label);
    });
}
