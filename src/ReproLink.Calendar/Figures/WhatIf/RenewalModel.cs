namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>What one cow takes from calving to a pregnancy that is kept, on average.</summary>
/// <param name="DaysOpen">Days from calving to the service that took.</param>
/// <param name="Services">Services, the first included.</param>
/// <param name="Tests">Pregnancy tests, repeated ones included; confirmations not.</param>
/// <param name="Confirmations">Confirmations.</param>
/// <param name="Destroyed">Pregnancies ended by treatment after a wrong <c>open</c>.</param>
/// <param name="Doses">Doses of each agent, first service by protocol included.</param>
internal readonly record struct Totals(double DaysOpen, double Services, double Tests, double Confirmations, double Destroyed, Doses Doses);

/// <summary>
/// A service either takes or fails, and a failure is followed by the next service after the days of its branch: a renewal process,
/// with the weekday of the service as its state, since the calendar runs in weeks. Nobody is culled.
/// </summary>
/// <remarks>
/// Where every weekday goes alike it is the closed form: with s the chance of a later service to take, s1 of the first, I and I1 the
/// mean days a failure takes, services = 1 + (1 − s1) / s and days open = F + (1 − s1) (I1 + (1 / s − 1) I).
/// </remarks>
internal sealed class RenewalModel
{
    private const int Weekdays = 7;

    private readonly ModelInputs _inputs;
    private readonly Branches[] _first;
    private readonly Branches[] _later;
    private readonly double[] _firstWeekdays;

    public RenewalModel(ModelInputs inputs)
    {
        _inputs = inputs;
        _first = [.. Enumerable.Range(0, Weekdays).Select(w => new Branches(inputs, inputs.PregnantFirst, w))];
        _later = [.. Enumerable.Range(0, Weekdays).Select(w => new Branches(inputs, inputs.PregnantLater, w))];
        _firstWeekdays = [.. inputs.Course.FirstServiceWeekdays];
    }

    /// <summary>Bred until pregnant; every number is infinite where later services never take.</summary>
    public Totals Total()
    {
        var later = LaterServices();
        var (days, services, tests, confirmations, destroyed) = (_inputs.First, 0.0, 0.0, 0.0, 0.0);
        var doses = _inputs.Course.FirstService;
        for (var w = 0; w < Weekdays; w++)
        {
            foreach (var (times, branches) in new[] { (_firstWeekdays[w], _first[w]), (later[w], _later[w]) })
            {
                days += times * branches.Failures.Sum(f => f.Weight * f.Days);
                services += times;
                tests += times * branches.Tests;
                confirmations += times * branches.Confirmations;
                destroyed += times * branches.Destroyed;
                doses += times * branches.Doses;
            }
        }

        return new Totals(days, services, tests, confirmations, destroyed, doses);
    }

    /// <summary>
    /// Share pregnant by each day after calving, 0 to <paramref name="last"/>, and what one cow takes if none is served after that day;
    /// days open then run to the pregnancy or that day.
    /// </summary>
    public (double[] Pregnant, Totals Until) Until(int last)
    {
        var first = new double[last + 1, Weekdays];
        var later = new double[last + 1, Weekdays];
        // A mean between two days is some cows on the one and some on the other.
        var day = (int)Math.Floor(_inputs.First);
        Start(first, day, 1 - (_inputs.First - day));
        Start(first, day + 1, _inputs.First - day);
        var pregnant = new double[last + 1];
        var totals = new Totals(0, 0, 0, 0, 0, _inputs.Course.FirstService);
        var share = 0.0;
        for (var t = 0; t <= last; t++)
        {
            for (var w = 0; w < Weekdays; w++)
            {
                share += Serve(first[t, w], _first[w], t, w, later, ref totals);
                share += Serve(later[t, w], _later[w], t, w, later, ref totals);
            }

            pregnant[t] = share;
            totals = t < last ? totals with { DaysOpen = totals.DaysOpen + (1 - share) } : totals;
        }

        return (pregnant, totals);
    }

    private void Start(double[,] first, int day, double share)
    {
        if (share > 0 && day < first.GetLength(0))
        {
            for (var w = 0; w < Weekdays; w++)
            {
                first[day, w] += share * _firstWeekdays[w];
            }
        }
    }

    private static double Serve(double served, Branches branches, int day, int weekday, double[,] later, ref Totals totals)
    {
        if (served == 0)
        {
            return 0;
        }

        foreach (var (weight, days) in branches.Failures)
        {
            if (day + days < later.GetLength(0))
            {
                later[day + days, (weekday + days) % Weekdays] += served * weight;
            }
        }

        totals = new Totals(
            totals.DaysOpen, totals.Services + served, totals.Tests + (served * branches.Tests), totals.Confirmations + (served * branches.Confirmations),
            totals.Destroyed + (served * branches.Destroyed), totals.Doses + (served * branches.Doses));
        return served * branches.Success;
    }

    // How often a cow is served again on each weekday: v = u + Tᵀv, u from the first service, T from one later service to the next.
    private double[] LaterServices()
    {
        var matrix = new double[Weekdays, Weekdays + 1];
        for (var w = 0; w < Weekdays; w++)
        {
            matrix[w, w] += 1;
            foreach (var (weight, days) in _later[w].Failures)
            {
                matrix[(w + days) % Weekdays, w] -= weight;
            }

            foreach (var (weight, days) in _first[w].Failures)
            {
                matrix[(w + days) % Weekdays, Weekdays] += _firstWeekdays[w] * weight;
            }
        }

        return _later.Any(b => b.Success <= 0) ? [.. Enumerable.Repeat(double.PositiveInfinity, Weekdays)] : Solve(matrix);
    }

    // Gauss without pivoting: every column of I − Tᵀ sums to more than nothing, so the diagonal leads in each step.
    private static double[] Solve(double[,] m)
    {
        for (var i = 0; i < Weekdays; i++)
        {
            for (var row = 0; row < Weekdays; row++)
            {
                if (row == i || m[row, i] == 0)
                {
                    continue;
                }

                var factor = m[row, i] / m[i, i];
                for (var column = i; column <= Weekdays; column++)
                {
                    m[row, column] -= factor * m[i, column];
                }
            }
        }

        return [.. Enumerable.Range(0, Weekdays).Select(i => m[i, Weekdays] / m[i, i])];
    }
}
