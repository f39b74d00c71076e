using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>Prints the reasons of an answer. The only place that makes their sentences.</summary>
internal static class AnswerReasons
{
    public static IReadOnlyList<Reason> Of(WindowAnswer answer)
    {
        var state = answer.State;
        return (answer.Verdict.Answer, answer.Verdict.Reason) switch
        {
            (null, _) => [Reason.Of("F4", $"left on {state.Departure!.Day.ToSentence()}", state.Departure.Id)],
            (Answer.Blocked, AnswerReason.HeldResult) => [Held(state)],
            (Answer.Blocked, AnswerReason.ExaminationDue) => Examination(state),
            (Answer.Blocked, _) => Bulls(state),
            (Answer.NotNeeded, AnswerReason.NotServed) => [NotServed(state)],
            (Answer.NotNeeded, AnswerReason.Open) => [Open(state)],
            (Answer.NotNeeded, AnswerReason.DoNotBreed) => [Reason.Of("5.3", "not to be bred", state.DoNotBreed!.Id)],
            (Answer.NotNeeded, AnswerReason.AwaitingResult) => [Awaiting(answer)],
            (Answer.NotNeeded, _) => [Pregnant(state)],
            (_, AnswerReason.NoSamplingDay) => [Reason.Of("B1", "the programme has no day on which blood is drawn")],
            _ => Binding(answer),
        };
    }

    private static Reason Held(AnimalState state) =>
        Reason.Of("W1", $"a held result names her or may mean her ({string.Join(", ", state.History.Held.Select(h => h.HeldId))}): resolve it first");

    private static List<Reason> Examination(AnimalState state)
    {
        var reasons = state.Conflicts.Where(c => c.NeedsExamination).Select(c => ConflictReasons.Of(c, state)).ToList();
        if (state.Recheck is { IsDouble: true } row)
        {
            reasons.Add(Reason.Of("T5", "inconclusive twice in a row: an examination decides", row.Fact));
        }

        return reasons;
    }

    private static List<Reason> Bulls(AnimalState state) =>
        [.. state.Exposures
            .Where(e => e is { FailedBy: null, Last: null })
            .Select(e => Reason.Of("T4", $"running with a bull since {e.First.ToSentence()}: blood tells 28 days after he is out", e.Fact.Id))];

    // It rests on facts that are not there: without the calving she would mostly be just as little served.
    private static Reason NotServed(AnimalState state) => state.LastCalving is { } calving
        ? Reason.Of("5.3", $"not served since she calved on {calving.Day.ToSentence()}")
        : Reason.Of("5.3", "no service or exposure on record");

    private static Reason Open(AnimalState state) => state.LastOpen is { } open
        ? Reason.Of("T5", $"open by the {(open.ByExamination ? "examination" : "sample")} of {open.Sample.ToSentence()}", open.Fact)
        : Reason.Of("T5", "every service failed");

    private static Reason Awaiting(WindowAnswer answer)
    {
        var sample = answer.Verdict.Waiting!;
        return Reason.Of("W1", $"sampled on {sample.Day.ToSentence()}, result not in yet", sample.Id);
    }

    private static Reason Pregnant(AnimalState state) => state.Pregnancy is { } pregnancy
        ? Reason.Of("W1", $"pregnant by the sample of {pregnancy.FoundOn.ToSentence()}, no confirmation due", Ids(pregnancy))
        : Reason.Of("W1", "pregnant");

    private static FactId[] Ids(Pregnancy pregnancy) => (pregnancy.By?.Fact.Id ?? pregnancy.ByExposure?.Fact.Id) is { } dated
        ? [pregnancy.FoundBy, dated]
        : [pregnancy.FoundBy];

    // Why she is sampled again; an inconclusive sample says so itself where it binds.
    private static Reason? Again(WindowAnswer answer)
    {
        if (answer.Verdict.Replaces is { } replaced)
        {
            return answer.State.History.Facts.First(f => f.Id == replaced) is TestResult spoiled
                ? Reason.Of("T5", $"the sample of {spoiled.Day.ToSentence()} was spoiled", replaced)
                : Reason.Of("W1", $"the result of the sample of {answer.State.History.Facts.First(f => f.Id == replaced).Day.ToSentence()} {(answer.On > answer.State.AsOf ? "is not in by then" : "is overdue")}", replaced);
        }

        return answer.State.Recheck is { } row && answer.Binding is not { Cause: CandidateCause.Inconclusive }
            ? Reason.Of("T5", $"the sample of {row.Sample.ToSentence()} was inconclusive", row.Fact)
            : null;
    }

    private static List<Reason> Binding(WindowAnswer answer)
    {
        var reasons = new List<Reason>();
        if (answer.Verdict.Need == Need.ResolveConflict)
        {
            reasons.AddRange(answer.State.Conflicts.Select(c => ConflictReasons.Of(c, answer.State)));
        }
        else if (answer.Verdict.Need == Need.Resample && Again(answer) is { } again)
        {
            reasons.Add(again);
        }

        if (answer.Binding is { } binding)
        {
            reasons.Add(new Reason(binding.Rule, binding.Date, binding.Text, binding.Fact is { } fact ? [fact] : []));
        }

        return reasons;
    }
}
