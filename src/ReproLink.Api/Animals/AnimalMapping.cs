using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.Programmes;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.WorkCalendar;

namespace ReproLink.Api.Animals;

internal static class AnimalMapping
{
    public static TestWindowAnswer Answer(WindowAnswer answer, HerdRules rules, Instant knownAt)
    {
        var (state, verdict) = (answer.State, answer.Verdict);
        return new TestWindowAnswer
        {
            Animal = state.Animal,
            On = answer.On.Date,
            AsOf = state.AsOf.Date,
            KnownAt = knownAt,
            Status = StatusWords.Of(state.Status),
            Answer = verdict.Answer is { } word ? AnswerWords.Of(word) : null,
            Reason = verdict.Answer is null ? null : AnswerWords.Of(verdict.Reason, verdict.Need),
            Need = verdict.Need is { } need ? AnswerWords.Of(need) : null,
            Overdue = verdict.Overdue,
            Window = WindowContract.Of(answer),
            ChangesOn = answer.ChangesOn?.Date,
            Reasons = [.. answer.Reasons.Select(ReasonContract.Of)],
            Candidates = [.. answer.Candidates.Where(c => c.Bound == Bound.Opens).Select(Of)],
            Limits = [.. answer.Candidates.Where(c => c.Bound != Bound.Opens).Select(Of)],
            Gate = new GateAnswer { Pgf = GateOf(state, rules) },
            Plan = Plan(state, rules, knownAt),
            Pregnancy = Pregnancy(state, rules),
            Programme = ProgrammeNote.Of(rules.HasSavedProgramme),
            Cautions = Cautions.All,
        };
    }

    public static IReadOnlyList<PlanStepAnswer> Plan(AnimalState state, HerdRules rules, Instant knownAt) =>
        Planner.Current(state, rules, state.AsOf, knownAt) is not { } plan ? [] :
        [
            .. plan.Steps.Where(s => s.State != StepState.Cancelled).Select(s => new PlanStepAnswer
            {
                Step = ProtocolWords.Of(s.Step.Kind),
                Date = s.Day.Date,
                Time = s.At.TimeOfDay,
                State = WorkWords.Of(s.State),
                Clause = s.Clause is { } clause ? GateWords.Of(clause) : null,
            }),
        ];

    public static PregnancyAnswer? Pregnancy(AnimalState state, HerdRules rules) => PregnancyDates.Of(state, rules) is { } dates
        ? new PregnancyAnswer
        {
            From = dates.From.Date,
            Due = dates.Due.Date,
            DueFrom = dates.DueFrom.Date,
            DueTo = dates.DueTo.Date,
            DryOff = dates.DryOff?.Date,
        }
        : null;

    private static GateStepAnswer GateOf(AnimalState state, HerdRules rules) => Gate.Closed(state, rules) is { } closed
        ? new GateStepAnswer { Allowed = false, Clause = GateWords.Of(closed), Text = GateWords.Sentence(closed) }
        : new GateStepAnswer { Allowed = true };

    private static CandidateAnswer Of(Candidate candidate) => new()
    {
        Rule = candidate.Rule,
        Bound = candidate.Bound switch
        {
            Bound.Opens => "opens",
            Bound.Target => "target",
            _ => "closes",
        },
        Date = candidate.Date.Date,
        Text = candidate.Text,
        Facts = candidate.Fact is { } fact ? [fact.ToString()] : [],
    };
}
