using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>Gives a dated step its state (rules S4, S5, S7, S8, S9).</summary>
internal sealed class StepJudge(PlanMoment moment, ProgrammeVersion version, Day opens)
{
    /// <summary>When the first gated step falls: all gated steps are judged by it (S5).</summary>
    public LocalDateTime? FirstGatedAt { get; set; }

    /// <summary>The state of a step.</summary>
    /// <param name="step">The step.</param>
    /// <param name="at">Its planned time.</param>
    /// <param name="act">What was recorded for it; null = nothing.</param>
    /// <param name="otherAgent">Another agent given on its day: an alert, and nothing is assumed then (T7).</param>
    public PlannedStep Judge(ProtocolStep step, LocalDateTime at, Fact? act, Treatment? otherAgent)
    {
        var latest = StepTimes.Resolve(at, moment.Rules.Zone).Plus(Duration.FromHours(step.LateHours)).InZone(moment.Rules.Zone).LocalDateTime;
        var planned = new PlannedStep(step, at, StepState.Firm) { LatestAt = latest, OffHours = IsOffHours(at), OtherAgent = otherAgent };
        if (act is Treatment { NotDone: true })
        {
            return planned with { State = StepState.Missed, Recorded = act.Id, Reasons = [Reason.Of("S7", "reported as not done", act.Id)] };
        }

        if (act is not null)
        {
            return planned with { State = StepState.Done, Recorded = act.Id, Reasons = [Reason.Of("S7", "recorded", act.Id)] };
        }

        return Undone(planned);
    }

    private PlannedStep Undone(PlannedStep planned)
    {
        if (planned.Step.Kind == StepKind.InsertOut)
        {
            return planned;
        }

        var pregnant = IsCancelled(moment.State);
        var isOver = moment.AsOf > planned.Day || moment.Now > planned.LatestAt;
        if (isOver && planned.OtherAgent is null && IsAssumedDone(planned))
        {
            return planned with { State = StepState.Done, Assumed = true, Reasons = [Reason.Of("S7", "not recorded: taken as done, it was due and released")] };
        }

        if (pregnant)
        {
            return planned with { State = StepState.Cancelled, Reasons = [Reason.Of("S5", "pregnant", moment.State.Pregnancy!.FoundBy)] };
        }

        return moment.Now > planned.LatestAt
            ? planned with { State = StepState.Missed, Reasons = [Reason.Of("S7", "not recorded within its tolerance")] }
            : Released(planned, moment.State);
    }

    private static bool IsCancelled(AnimalState state) => state.Pregnancy is not null;

    // S7: with assumed recording a step other than the insemination that was firm at its time counts as done then.
    private bool IsAssumedDone(PlannedStep planned)
    {
        if (planned.Step.Kind == StepKind.Inseminate || moment.Rules.On(planned.Day).Programme.Recording != Recording.Assumed)
        {
            return false;
        }

        var at = StepTimes.Resolve(planned.At, moment.Rules.Zone);
        var then = moment.Before(planned.At);
        return !IsCancelled(then) && then is { DoNotBreed: null, Departure: null }
            && (planned.Step.Kind == StepKind.WatchOestrus || version.IsApproved(planned.Day, at))
            && (!planned.Step.Gated || (Gate.Closed(then) is null && HasCorpusLuteum(planned.Step, then)));
    }

    private PlannedStep Released(PlannedStep planned, AnimalState state)
    {
        if (planned.Step.Gated)
        {
            if (Gate.Closed(state) is { } clause)
            {
                return Held(planned, state, clause);
            }

            if (!HasCorpusLuteum(planned.Step, state))
            {
                return planned with { State = StepState.Held, Reasons = [Reason.Of("S9", "needs an examination that saw a corpus luteum; blood does not show one")] };
            }
        }

        return planned.Step.Kind == StepKind.WatchOestrus || version.IsApproved(planned.Day, moment.KnownAt)
            ? planned with { Reasons = planned.Step.Gated ? [WhyOpen(state)] : [] }
            : Unapproved(planned);
    }

    // What the gate was opened by: a firm dose of prostaglandin says why it may be given.
    private static Reason WhyOpen(AnimalState state) => state switch
    {
        { LastOpen: { } open } => Reason.Of("S4", $"open by the {(open.ByExamination ? "examination" : "sample")} of {open.Sample.ToSentence()}, for all she was served by", open.Fact),
        { LastCalving: { } calving } => Reason.Of("S4", $"not served since she calved on {calving.Day.ToSentence()}", calving.Id),
        _ => Reason.Of("S4", "a heifer that was never served"),
    };

    private static PlannedStep Unapproved(PlannedStep planned) => planned with
    {
        State = StepState.AwaitingApproval,
        Clause = GateClause.AwaitingApproval,
        Reasons = [Reason.Of("S8", GateWords.Sentence(GateClause.AwaitingApproval))],
    };

    // S5: before the result a gated step is conditional only while an answer can still be known before the first of them.
    private PlannedStep Held(PlannedStep planned, AnimalState state, GateClause clause)
    {
        if (clause is not (GateClause.NotOpen or GateClause.NotCovered) || state.Underneath != AnimalStatus.AwaitingTest)
        {
            return planned with { State = StepState.Held, Clause = clause, Reasons = [Reason.Of("S4", GateWords.Sentence(clause))] };
        }

        if (planned.Day <= moment.AsOf || !CanBeKnownInTime(state))
        {
            return planned with
            {
                State = StepState.Held,
                Clause = GateClause.NoResultInTime,
                Reasons = [Reason.Of("S5", GateWords.Sentence(GateClause.NoResultInTime))],
            };
        }

        return version.IsApproved(planned.Day, moment.KnownAt)
            ? planned with { State = StepState.Conditional, Clause = clause, Reasons = [Reason.Of("S5", "only if her result says open")] }
            : Unapproved(planned);
    }

    private bool CanBeKnownInTime(AnimalState state)
    {
        if (FirstGatedAt is not { } first || first <= moment.Now)
        {
            return false;
        }

        var laboratory = moment.Rules.Laboratory;
        var day = Day.From(first.Date);
        if (laboratory.LastUsefulDraw(Day.Max(moment.AsOf, opens), day, first.TimeOfDay) is not null)
        {
            return true;
        }

        foreach (var sample in state.PendingSamples)
        {
            if (sample.Day >= opens && laboratory.Report(sample.Day) is { } report
                && report.IsBefore(day, first.TimeOfDay) && StepTimes.At(report.Day, report.Time) >= moment.Now)
            {
                return true;
            }
        }

        return false;
    }

    // S9: seen at an examination since the latest service; blood does not show one.
    private static bool HasCorpusLuteum(ProtocolStep step, AnimalState state) =>
        !step.NeedsCorpusLuteum || state.History.Facts.Any(f =>
            f is Examination { CorpusLuteum: true } && f.Day <= state.AsOf
            && (state.LatestService is not { } service || f.Day > service.DayZero));

    private bool IsOffHours(LocalDateTime at)
    {
        var week = moment.Rules.On(Day.From(at.Date)).Programme.Week;
        return at.TimeOfDay < week.WorkingFrom || at.TimeOfDay > week.WorkingTo;
    }
}
