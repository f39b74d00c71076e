using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.TestSupport.Histories;

namespace ReproLink.TestSupport.Plans;

/// <summary>Plans as lines of text: <c>pgf-1 2026-10-12 07:00 conditional not-open</c>.</summary>
public static class PlanText
{
    /// <summary>The plans of a cow at an instant, looked at on its local day or another.</summary>
    public static AnimalPlans Plans(this Cow cow, HerdRules rules, string knownAt, string? asOf = null)
    {
        var instant = InstantPattern.General.Parse(knownAt).GetValueOrThrow();
        var day = asOf is null ? rules.DayOf(instant) : Cow.Day(asOf);
        return Planner.Of(cow.On(day, rules, instant), rules, day, instant);
    }

    /// <summary>The steps of her current plan; empty = none.</summary>
    public static IReadOnlyList<string> Plan(this Cow cow, HerdRules rules, string knownAt, string? asOf = null) =>
        Lines(cow.Plans(rules, knownAt, asOf).Current);

    /// <summary>The lines of a plan.</summary>
    public static IReadOnlyList<string> Lines(StepPlan? plan) => plan is null ? [] : [.. plan.Steps.Select(Line)];

    /// <summary>The line of a step.</summary>
    public static string Line(PlannedStep step)
    {
        var words = new List<string> { step.Step.Id, At(step.At), State(step.State) };
        if (step.Clause is { } clause) words.Add(GateWords.Of(clause));
        if (step.Assumed) words.Add("assumed");
        if (step.OtherAgent is not null) words.Add("wrong-agent");
        if (step.OffHours) words.Add("off-hours");
        return string.Join(' ', words);
    }

    /// <summary>The line of an insert that has to come out: placed, out, and whether the placing is on record.</summary>
    public static string Line(InsertToRemove? insert) => insert is null
        ? "none"
        : $"in {At(insert.PlacedAt)} {(insert.PlacedBy is null ? "assumed" : "recorded")} out {At(insert.OutAt)}";

    /// <summary>A wall-clock time.</summary>
    public static string At(LocalDateTime at) => at.ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string State(StepState state) => state == StepState.AwaitingApproval ? "awaiting" : state.ToString().ToLowerInvariant();
}
