using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Work;

/// <summary>The line of the picture something stands on.</summary>
public enum Lane
{
    Services = 0,
    Samples = 1,
    Steps = 2,
    Window = 3,
    Pregnancy = 4,
}

/// <summary>One day on the picture.</summary>
/// <param name="Day">The day.</param>
/// <param name="Lane">Its line.</param>
/// <param name="Letter">The letter in it.</param>
/// <param name="Look">How it is drawn: full, hollow.</param>
/// <param name="Words">What it is.</param>
public sealed record LactationMark(Day Day, Lane Lane, string Letter, string Look, string Words);

/// <summary>A span of days on the picture.</summary>
/// <param name="From">First day.</param>
/// <param name="To">Last day; absent = beyond the picture.</param>
/// <param name="Lane">Its line.</param>
/// <param name="Look">How it is drawn.</param>
/// <param name="Words">What it is.</param>
public sealed record LactationBand(Day From, Day? To, Lane Lane, string Look, string Words);

/// <summary>One lactation as marks and bands on a line of days: what the picture draws, and the table beside it says.</summary>
public sealed class Lactation
{
    private const int DaysBefore = 120;
    private const int DaysAhead = 45;
    private readonly AnimalState _state;

    public Lactation(AnimalState state, WindowAnswer answer, AnimalPlans plans, PregnancyDates? dates)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(plans);
        _state = state;
        var today = state.AsOf;
        First = state.LastCalving?.Day ?? FirstFact() ?? today - DaysBefore;
        var steps = plans.Earlier.Append(plans.Current).OfType<StepPlan>().SelectMany(p => p.Steps).ToList();
        Marks = [.. FactMarks([.. steps.Select(s => s.Recorded).OfType<FactId>()]).Concat(StepMarks(steps, today)).OrderBy(m => m.Day).ThenBy(m => m.Lane)];
        Bands = [.. BandsOf(answer, dates)];
        Last = new[] { today + DaysAhead, dates?.DueTo ?? today, steps.Count > 0 ? steps.Max(s => s.Day) : today }.Max();
    }

    /// <summary>First day: her calving.</summary>
    public Day First { get; }

    /// <summary>Last day.</summary>
    public Day Last { get; }

    /// <summary>Days, in order.</summary>
    public IReadOnlyList<LactationMark> Marks { get; }

    /// <summary>Spans.</summary>
    public IReadOnlyList<LactationBand> Bands { get; }

    private Day? FirstFact() => _state.History.Facts.Where(f => f is not AnimalCard && f.Day <= _state.AsOf).Select(f => (Day?)f.Day).Min() is { } day
        ? Day.Max(day, _state.AsOf - (3 * DaysBefore))
        : null;

    private IEnumerable<LactationMark> FactMarks(HashSet<FactId> ofSteps)
    {
        foreach (var fact in _state.History.Facts.Where(f => f.Day >= First && f.Day <= _state.AsOf && (f is Service || !ofSteps.Contains(f.Id))))
        {
            if (Of(fact) is { } drawn)
            {
                yield return new LactationMark(fact.Day, drawn.Lane, drawn.Letter, drawn.Look, FactLine.Of(fact));
            }
        }
    }

    private static (Lane Lane, string Letter, string Look)? Of(Fact fact) => fact switch
    {
        Calving => (Lane.Services, "C", "full"),
        Service => (Lane.Services, "S", "full"),
        Oestrus => (Lane.Services, "O", "hollow"),
        Loss => (Lane.Services, "L", "hollow"),
        // Given outside a plan; what does a step is drawn as the step.
        Treatment { NotDone: false } treatment => (Lane.Steps, SayWork.Letter(treatment.Agent), "full"),
        Sample => (Lane.Samples, "•", "hollow"),
        TestResult result => (Lane.Samples, Letter(result.Outcome), "full"),
        Examination examination => (Lane.Samples, Letter(examination.Outcome), "full"),
        _ => null,
    };

    private static string Letter(Outcome? outcome) => outcome switch
    {
        Outcome.Pregnant => "P",
        Outcome.Open => "N",
        Outcome.Recheck => "?",
        _ => "x",
    };

    private static IEnumerable<LactationMark> StepMarks(List<PlannedStep> steps, Day today) =>
        from step in steps
        where step.State is not (StepState.Cancelled or StepState.Missed)
        let done = step.State == StepState.Done
        select new LactationMark(step.Day, Lane.Steps, SayWork.Letter(step.Step.Kind), done ? "full" : "hollow",
            $"{Say.Of(step.Step.Kind)}: {(done ? step.Assumed ? T("common.taken-as-done") : T("common.done") : Say.State(step.State))}");

    private IEnumerable<LactationBand> BandsOf(WindowAnswer answer, PregnancyDates? dates)
    {
        foreach (var spell in _state.Exposures)
        {
            yield return new LactationBand(spell.First, spell.Last, Lane.Services, "bull", FactLine.Of(spell.Fact));
        }

        if (answer.Verdict.Window is { } window)
        {
            yield return new LactationBand(window.Opens, window.Closes, Lane.Window, "window", T("animal.test-window-wanted", Say.LongDay(window.Target)));
        }

        if (dates is not null)
        {
            yield return new LactationBand(dates.From, dates.Due, Lane.Pregnancy, "pregnancy", T("animal.pregnant-due", Say.LongDay(dates.Due)));
            yield return new LactationBand(dates.DueFrom, dates.DueTo, Lane.Pregnancy, "due", T("animal.may-calve"));
        }
    }
}
