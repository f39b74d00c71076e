using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>A sample that could decide the need and has no result yet (rule W1).</summary>
/// <param name="Sample">The sample.</param>
/// <param name="OverdueFrom">Second laboratory working day after the expected report day; absent = never.</param>
/// <param name="IsOverdue">Whether that day has come.</param>
internal readonly record struct Pending(Sample Sample, Day? OverdueFrom, bool IsOverdue)
{
    /// <summary>A sample whose result is still expected; else the latest whose report is overdue; null = neither.</summary>
    public static Pending? Find(
        AnimalState state, HerdRules rules, Programme programme, Day on, Need need, ConfirmationWindow? confirmation)
    {
        Pending? latest = null;
        for (var i = state.PendingSamples.Count - 1; i >= 0; i--)
        {
            var sample = state.PendingSamples[i];
            // Milk tells nothing where no milk test is configured (T1).
            if ((sample.Specimen != "milk" || programme.Test.Method == TestMethod.Milk)
                && CouldDecide(state, programme, need, confirmation, sample.Day))
            {
                var overdue = rules.Laboratory.OverdueFrom(sample.Day, sample.Dispatched);
                var pending = new Pending(sample, overdue, overdue <= on);
                if (!pending.IsOverdue)
                {
                    return pending;
                }

                latest ??= pending;
            }
        }

        return latest;
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

        foreach (var loss in state.EachLoss)
        {
            if (sample - loss.Fact.Day < loss.ClearanceDays(test))
            {
                return false;
            }
        }

        return need switch
        {
            Need.FirstTest => CoversOne(state, test, sample),
            Need.Resample => SpeaksOf(state, test, sample),
            Need.ResolveConflict => EndsAll(state, test, sample) && SpeaksOf(state, test, sample),
            Need.CautionRetest => (state.LastCalving is not { } c || sample - c.Day >= test.CautionDaysInMilk) && !(sample < state.Pregnancy?.RetestFrom),
            Need.Confirmation => confirmation is not null && state.Pregnancy?.To is { } dated && sample >= dated + confirmation.From,
            _ => false,
        };
    }

    private static bool CoversOne(AnimalState state, TestRules test, Day sample)
    {
        foreach (var service in state.EachService)
        {
            if (service.FailedBy is null && sample - service.DayZero >= test.MinDaysPostService)
            {
                return true;
            }
        }

        foreach (var spell in state.EachExposure)
        {
            if (spell is { FailedBy: null, Last: { } last } && sample - last >= test.MinDaysPostService)
            {
                return true;
            }
        }

        return false;
    }

    private static bool CouldDecide(RecheckRow row, TestRules test, Day sample) =>
        sample - row.Sample >= test.ResampleAfterDays
        && (!row.IsDouble || (row.NewService is { } service && sample - service.DayZero >= test.MinDaysPostService));

    // With a recheck or conflict too a sample must be able to say something: of the pregnancy, of what she was served by, or of nothing
    // served at all; and not before a second sample of an inconclusive row counts.
    private static bool SpeaksOf(AnimalState state, TestRules test, Day sample)
    {
        if (state.Recheck is { } row && !CouldDecide(row, test, sample))
        {
            return false;
        }

        return state.Pregnancy is not null || !state.HasCandidate || CoversOne(state, test, sample)
            || state.Conflicts.Any(c => c.Kind == ConflictKind.PregnantWithoutService);
    }

    private static bool EndsAll(AnimalState state, TestRules test, Day sample)
    {
        foreach (var conflict in state.EachConflict)
        {
            if (conflict.EndsFromBy(test) is not { } from || sample < from)
            {
                return false;
            }
        }

        return true;
    }
}
