namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>
/// Whether survival differs between groups: the log-rank test of Mantel (1966, Cancer Chemother Rep 50:163), two groups or more.
/// </summary>
/// <remarks>Checked against R survival 3.5.3 (<c>survdiff</c>).</remarks>
public sealed class LogRank
{
    private LogRank(double[] observed, double[] expected, double[,] variance)
    {
        Observed = observed;
        Expected = expected;
        ChiSquare = Statistic(variance);
    }

    /// <summary>Events of each group.</summary>
    public IReadOnlyList<double> Observed { get; }

    /// <summary>Events of each group expected if there were no difference.</summary>
    public IReadOnlyList<double> Expected { get; }

    /// <summary>Groups less one.</summary>
    public int Degrees => Observed.Count - 1;

    /// <summary>The statistic; null = fewer than two groups, or too few events to tell.</summary>
    public double? ChiSquare { get; }

    /// <summary>Probability of so large a statistic without a difference; null = no statistic.</summary>
    public double? P => ChiSquare is { } value ? Gamma.ChiSquareAbove(value, Degrees) : null;

    /// <summary>The test of groups of subjects.</summary>
    public static LogRank Of(IReadOnlyList<IReadOnlyCollection<FollowUp>> groups)
    {
        ArgumentNullException.ThrowIfNull(groups);
        var k = groups.Count;
        var (observed, expected, variance) = (new double[k], new double[k], new double[k, k]);
        var atRisk = groups.Select(g => g.Count).ToArray();
        var days = groups.SelectMany((g, i) => DayCount.Of(g).Select(d => (Group: i, Day: d))).GroupBy(d => d.Day.Days).OrderBy(g => g.Key);
        foreach (var day in days)
        {
            Count([.. day], atRisk, observed, expected, variance);
            foreach (var (group, counted) in day)
            {
                atRisk[group] -= counted.Events + counted.Competing + counted.Censored;
            }
        }

        return new LogRank(observed, expected, variance);
    }

    private static void Count((int Group, DayCount Day)[] day, int[] atRisk, double[] observed, double[] expected, double[,] variance)
    {
        double events = day.Sum(d => d.Day.Events);
        double all = atRisk.Sum();
        if (events == 0)
        {
            return;
        }

        foreach (var (group, counted) in day)
        {
            observed[group] += counted.Events;
        }

        var spread = all > 1 ? events * (all - events) / (all - 1) : 0;
        for (var i = 0; i < atRisk.Length; i++)
        {
            var share = atRisk[i] / all;
            expected[i] += events * share;
            for (var j = 0; j < atRisk.Length; j++)
            {
                variance[i, j] += spread * share * ((i == j ? 1 : 0) - (atRisk[j] / all));
            }
        }
    }

    // Difference × inverse of its variance × difference, without the last group, which follows from the others.
    private double? Statistic(double[,] variance)
    {
        var n = Observed.Count - 1;
        if (n < 1)
        {
            return null;
        }

        var rows = new double[n][];
        for (var i = 0; i < n; i++)
        {
            rows[i] = [.. Enumerable.Range(0, n).Select(j => variance[i, j]), Observed[i] - Expected[i]];
        }

        return Solve(rows) is { } solved ? Enumerable.Range(0, n).Sum(i => (Observed[i] - Expected[i]) * solved[i]) : null;
    }

    // Elimination with the largest pivot; null = singular.
    private static double[]? Solve(double[][] rows)
    {
        var n = rows.Length;
        for (var column = 0; column < n; column++)
        {
            var pivot = Enumerable.Range(column, n - column).MaxBy(r => Math.Abs(rows[r][column]));
            if (Math.Abs(rows[pivot][column]) < 1e-12)
            {
                return null;
            }

            (rows[column], rows[pivot]) = (rows[pivot], rows[column]);
            for (var r = 0; r < n; r++)
            {
                var factor = r == column ? 0 : rows[r][column] / rows[column][column];
                for (var c = column; c <= n; c++)
                {
                    rows[r][c] -= factor * rows[column][c];
                }
            }
        }

        return [.. Enumerable.Range(0, n).Select(i => rows[i][n] / rows[i][i])];
    }
}
