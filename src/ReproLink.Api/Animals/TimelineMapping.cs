using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Api.Intake;
using ReproLink.Api.Programmes;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;

namespace ReproLink.Api.Animals;

internal static class TimelineMapping
{
    public static TimelineAnswer Answer(
        AnimalState state, FoldTrace trace, HerdRules rules, Instant knownAt, ILookup<FactId, ReceivedFromAnswer> received) => new()
        {
            Animal = state.Animal,
            AsOf = state.AsOf.Date,
            KnownAt = knownAt,
            Status = StatusWords.Of(state.Status),
            Registered = state.Card is not null,
            Facts = [.. state.History.Facts.Where(f => f.Day <= state.AsOf).Select(f => Fact(state, f, received))],
            Statuses = [.. trace.Statuses.Select(s => new StatusAnswer { From = s.From.Date, Status = StatusWords.Of(s.Status), Fact = s.Fact.ToString() })],
            Results = [.. trace.Judgements.Select(Of)],
            Warnings = [.. trace.Notes.Select(n => ReasonContract.Of(n.Reason))],
            Conflicts = [.. state.Conflicts.Select(c => ReasonContract.Of(ConflictReasons.Of(c, state)))],
            Plan = AnimalMapping.Plan(state, rules, knownAt),
            Pregnancy = AnimalMapping.Pregnancy(state, rules),
            Programme = ProgrammeNote.Of(rules.HasSavedProgramme),
            Cautions = Cautions.All,
        };

    private static FactAnswer Fact(AnimalState state, Fact fact, ILookup<FactId, ReceivedFromAnswer> received)
    {
        var answer = FactMapping.Answer(state.Animal, fact);
        return received.Contains(fact.Id) ? answer with { Received = [.. received[fact.Id]] } : answer;
    }

    private static JudgementAnswer Of(Judgement judgement) => new()
    {
        Fact = judgement.Fact.ToString(),
        Decides = TestResultMapping.DecisionWord(judgement.Decides),
        Outcome = judgement.Effective is { } outcome ? FactVocabulary.Outcomes.Word(outcome) : null,
        Reasons = [.. judgement.Reasons.Select(ReasonContract.Of)],
    };
}
