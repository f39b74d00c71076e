using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

internal static class TestResultMapping
{
    public static TestResultAnswer Accepted(FactDraft draft, AppendAnswer answer, AnimalTraces traces)
    {
        var judgement = traces.Of(draft.Animal).Of(answer.Id);
        return new TestResultAnswer
        {
            SourceId = draft.Fact.SourceId,
            Status = FactMapping.StatusWord(answer.Status),
            FactId = answer.Id.ToString(),
            Animal = draft.Animal,
            // A result of tomorrow's sample, or one reported tomorrow, is not folded today: it decides nothing yet.
            Decides = DecisionWord(judgement?.Decides ?? Decision.Nothing),
            Reasons = [.. (judgement?.Reasons ?? []).Select(ReasonContract.Of)],
            Warnings = FactWarnings.For(traces, draft.Animal, answer.Id),
        };
    }

    public static TestResultAnswer Held(HeldDraft draft, string heldId) => new()
    {
        SourceId = draft.SourceId,
        Status = "held",
        HeldId = heldId,
        Reason = draft.Reason,
    };

    public static TestResultAnswer Rejected(BatchItem item, string? sourceId, IReadOnlyList<FieldProblem> problems)
    {
        var list = problems.Select(p => Problem.OfItem(p, item.Index, item.Line)).ToArray();
        return new TestResultAnswer { SourceId = sourceId, Status = "rejected", Problem = list[0], Problems = list };
    }

    public static HeldDraft Hold(ReceivedResult result, Match match, string content) => new(
        result.Fact.Source, result.Fact.SourceId, match.Animal, result.Tube, match.HeldFor!, content,
        match.Animal is null ? null : new FactDraft(match.Animal, result.Fact))
    {
        MayMean = match.MayMean,
    };

    public static string DecisionWord(Decision decision) => decision switch
    {
        Decision.Open => "open",
        Decision.Pregnant => "pregnant",
        Decision.Recheck => "recheck",
        _ => "nothing",
    };
}
