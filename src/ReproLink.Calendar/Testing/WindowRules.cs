using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>The window of one need on one day: candidates, their reduction, and what stands in the way (rules W1–W3).</summary>
internal readonly ref struct WindowRules(AnimalState state, HerdRules rules, Programme programme, Day on, CandidateList candidates)
{
    private TestRules Test => programme.Test;

    public Verdict Judge(Need need, ConfirmationWindow? confirmation)
    {
        var sample = Pending.Find(state, rules, programme, on, need, confirmation);
        if (sample is { IsOverdue: false } pending)
        {
            return new Verdict(Answer.NotNeeded, AnswerReason.AwaitingResult, null, false) { Until = pending.OverdueFrom, Waiting = pending.Sample };
        }

        var asked = need;
        var replaced = Replaced(sample?.Sample, need, confirmation);
        need = replaced is null ? need : Need.Resample;
        if (state.History.Held.Count > 0)
        {
            return Blocked(need, AnswerReason.HeldResult);
        }

        if (NeedsExamination())
        {
            return Blocked(need, AnswerReason.ExaminationDue);
        }

        if (IsExposureRunning(asked))
        {
            return Blocked(need, AnswerReason.ExposureRunning);
        }

        AddOpens(asked, confirmation);
        return Reduce(need, asked, replaced, confirmation) with { Replaces = replaced?.Fact };
    }

    private static Verdict Blocked(Need need, AnswerReason reason) => new(Answer.Blocked, reason, need, false);

    // The later of an overdue sample and a spoiled one that could have decided the need.
    private (Day Day, FactId Fact)? Replaced(Sample? overdue, Need need, ConfirmationWindow? confirmation) =>
        state.Invalid is { } invalid && !(overdue?.Day >= invalid.Day) && Pending.CouldDecide(state, programme, need, confirmation, invalid.Day)
            ? (invalid.Day, invalid.Id)
            : overdue is not null ? (overdue.Day, overdue.Id) : null;

    private bool NeedsExamination()
    {
        foreach (var conflict in state.EachConflict)
        {
            if (conflict.NeedsExamination)
            {
                return true;
            }
        }

        return state.Recheck is { IsDouble: true, NewService: null };
    }

    // A bull still in moves T4 along with every day asked about. Once she is pregnant without a conflict he moves nothing.
    private bool IsExposureRunning(Need asked)
    {
        if (asked is Need.CautionRetest or Need.Confirmation)
        {
            return false;
        }

        foreach (var spell in state.EachExposure)
        {
            if (spell is { FailedBy: null, Last: null })
            {
                return true;
            }
        }

        return false;
    }

    private void AddOpens(Need asked, ConfirmationWindow? confirmation)
    {
        AddServiceBounds(asked);
        if (state.LastCalving is { } calving)
        {
            candidates.Opens(CandidateCause.Calving, calving.Day + Test.MinDaysInMilk, calving.Day, calving.Id);
            if (asked == Need.CautionRetest)
            {
                candidates.Opens(CandidateCause.Caution, calving.Day + Test.CautionDaysInMilk, calving.Day, calving.Id);
                if (state.Pregnancy is { RetestFrom: { } from } twice)
                {
                    candidates.Opens(CandidateCause.CautionTwice, from, twice.LastPositive, twice.LastPositiveBy);
                }
            }
        }

        foreach (var loss in state.EachLoss)
        {
            candidates.Opens(CandidateCause.Loss, loss.Fact.Day + loss.ClearanceDays(Test), loss.Fact.Day, loss.Fact.Id);
        }

        if (asked is Need.Resample or Need.ResolveConflict && state.Recheck is { } row)
        {
            candidates.Opens(CandidateCause.Inconclusive, row.Sample + Test.ResampleAfterDays, row.Sample, row.Fact);
        }

        foreach (var conflict in state.EachConflict)
        {
            // b and h are bounded by T1, T4 and T3 already; the others count days from the fact that raised them.
            if (conflict.EndsFrom is { } from && conflict is not { LaterService: not null } and not { LaterExposure: not null }
                && conflict.Kind != ConflictKind.LossNotExamined)
            {
                candidates.Opens(CandidateCause.Contradiction, from, conflict.Since, conflict.RaisedBy);
            }
        }

        if (confirmation is not null && state.Pregnancy is { To: { } dated } pregnancy)
        {
            candidates.Opens(CandidateCause.Confirmation, dated + confirmation.From, dated, pregnancy.FoundBy);
        }
    }

    // Pregnant animals are bounded by T1 and T4 only where a later service or exposure contradicts the pregnancy.
    private void AddServiceBounds(Need asked)
    {
        if (asked is Need.CautionRetest or Need.Confirmation)
        {
            return;
        }

        foreach (var service in state.EachService)
        {
            if (service.FailedBy is null)
            {
                var cause = service.Fact is EmbryoTransfer ? CandidateCause.EmbryoTransfer : CandidateCause.Service;
                candidates.Opens(cause, service.DayZero + Test.MinDaysPostService, service.DayZero, service.Fact.Id);
            }
        }

        foreach (var spell in state.EachExposure)
        {
            if (spell is { FailedBy: null, Last: { } last })
            {
                candidates.Opens(CandidateCause.Exposure, last + Test.MinDaysPostService, last, spell.Fact.Id);
            }
        }
    }

    private Verdict Reduce(Need need, Need asked, (Day Day, FactId Fact)? replaced, ConfirmationWindow? confirmation)
    {
        var opens = candidates.Binding?.Date ?? on;
        var (closes, serves) = Closes(asked, replaced, confirmation, opens);
        closes = closes is { } end ? Day.Max(end, opens) : null;
        var target = Target(opens, closes);
        var window = new Window(opens, target, closes);
        if (opens > on)
        {
            return new Verdict(Answer.NotYet, candidates.Binding!.Value.Reason, need, false) { Window = window, Serves = serves };
        }

        if (rules.FirstSamplingDay(on) is null)
        {
            return new Verdict(Answer.NotYet, AnswerReason.NoSamplingDay, need, false) { Window = window };
        }

        return new Verdict(Answer.Eligible, AnswerReason.Need, need, closes < on) { Window = window, Serves = serves };
    }

    private Day Target(Day opens, Day? closes)
    {
        if (LatestDayZero() is not { } zero)
        {
            return opens;
        }

        var wanted = Day.Max(zero.Day + Test.TargetDaysPostService, opens);
        var target = closes is { } end ? Day.Min(wanted, end) : wanted;
        candidates.Limit(CandidateCause.Wanted, Bound.Target, zero.Day + Test.TargetDaysPostService, zero.Day, zero.Fact);
        return target;
    }

    private (Day? Closes, ServedStep? Serves) Closes(Need asked, (Day Day, FactId Fact)? replaced, ConfirmationWindow? confirmation, Day opens)
    {
        if (replaced is { } sample)
        {
            return (Limit(CandidateCause.ResampleEnd, sample.Day + Test.ResampleWithinDays, sample.Day, sample.Fact), null);
        }

        return asked switch
        {
            Need.FirstTest => FirstTestCloses(opens),
            Need.Resample when state.Recheck is { } row =>
                (Limit(CandidateCause.ResampleEnd, row.Sample + Test.ResampleWithinDays, row.Sample, row.Fact), null),
            Need.Confirmation when confirmation is not null && state.Pregnancy is { To: { } dated } pregnancy =>
                (Limit(CandidateCause.Confirmation, dated + confirmation.To, dated, pregnancy.FoundBy), null),
            _ => (null, null),
        };
    }

    private (Day?, ServedStep?) FirstTestCloses(Day opens)
    {
        if (LatestDayZero() is not { } zero)
        {
            return (null, null);
        }

        if (FirstStart.Find(state, rules, zero.Day, opens) is { LastDraw: { } draw } start)
        {
            var step = Day.From(start.StepAt.Date);
            candidates.Limit(CandidateCause.Decision, Bound.Closes, draw, step, start.PinnedBy);
            return (draw, new ServedStep(start.Step.Kind, step));
        }

        return (Limit(CandidateCause.Overdue, zero.Day + Test.OverdueDaysPostService, zero.Day, zero.Fact), null);
    }

    private Day Limit(CandidateCause cause, Day date, Day from, FactId fact)
    {
        candidates.Limit(cause, Bound.Closes, date, from, fact);
        return date;
    }

    // T4: the last day with the bull takes the place of the service day.
    private (Day Day, FactId Fact)? LatestDayZero()
    {
        (Day Day, FactId Fact)? latest = null;
        foreach (var service in state.EachService)
        {
            if (service.FailedBy is null && !(service.DayZero < latest?.Day))
            {
                latest = (service.DayZero, service.Fact.Id);
            }
        }

        foreach (var spell in state.EachExposure)
        {
            if (spell is { FailedBy: null, Last: { } last } && !(last < latest?.Day))
            {
                latest = (last, spell.Fact.Id);
            }
        }

        return latest;
    }
}
