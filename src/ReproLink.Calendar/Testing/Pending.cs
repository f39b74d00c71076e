using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>A sample that could decide the need and has no result yet (rule W1).</summary>
/// <param name="Sample">The sample.</param>
/// <param name="OverdueFrom">Second laboratory working day after the expected report day; absent = never.</param>
internal readonly record struct Pending(Sample Sample, Day? OverdueFrom)
{
    /// <summary>The latest such sample; null = none. A spoiled sample of the same day or later takes its place.</summary>
    public static Pending? Find(AnimalState state, HerdRules rules, Programme programme, Need need, ConfirmationWindow? confirmation)
    {
        for (var i = state.PendingSamples.Count - 1; i >= 0; i--)
        {
            var sample = state.PendingSamples[i];
            if (CouldDecide(state, programme, need, confirmation, sample.Day))
            {
                return state.Invalid is { } invalid && invalid.Day >= sample.Day
                    ? null
                    : new Pending(sample, rules.Laboratory.OverdueFrom(sample.Day));
            }
        }

        return null;
    }

    /// <summary>
    /// Whether a sample of a day could decide a need: first test, T1 for at least one service not failed; conflict, a day
    /// that ends it; caution, from day 90; confirmation, inside the window or later; always T2 and T3.
    /// </summary>
    public static bool CouldDecide(AnimalState state, Programme programme, Need need, ConfirmationWindow? confirmation, Day sample)
    {
        var test = programme.Test;
        if (state.LastCalving is { } calving && sample - calving.Day < test.MinDaysInMilk)
        {
            return false;
        }

        foreach (var loss in state.Losses)
        {
            if (sample - loss.Fact.Day < loss.ClearanceDays)
            {
                return false;
            }
        }

        return need switch
        {
            Need.FirstTest => CoversOne(state, test, sample),
            Need.Resample => state.Recheck is { } row && CouldDecide(row, test, sample),
            Need.ResolveConflict => EndsAll(state, sample),
            Need.CautionRetest => state.LastCalving is not { } c || sample - c.Day >= test.CautionDaysInMilk,
            Need.Confirmation => confirmation is not null && state.Pregnancy?.To is { } dated && sample >= dated + confirmation.From,
            _ => false,
        };
    }

    private static bool CoversOne(AnimalState state, TestRules test, Day sample)
    {
        foreach (var service in state.Services)
        {
            if (service.FailedBy is null && sample - service.DayZero >= test.MinDaysPostService)
            {
                return true;
            }
        }

        foreach (var spell in state.Exposures)
        {
            if (spell is { FailedBy: null, Last: { } last } && sample - last >= test.MinDaysPostService)
            {
                return true;
            }
        }

        return false;
    }

    private static bool CouldDecide(RecheckRow row, TestRules test, Day sample) =>
        row.NewService is { } service && row.IsDouble
            ? sample - service.DayZero >= test.MinDaysPostService
            : !row.IsDouble && sample - row.Sample >= test.ResampleAfterDays;

    private static bool EndsAll(AnimalState state, Day sample)
    {
        foreach (var conflict in state.Conflicts)
        {
            if (conflict.EndsFrom is not { } from || sample < from)
            {
                return false;
            }
        }

        return true;
    }
}
