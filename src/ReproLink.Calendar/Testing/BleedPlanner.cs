using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>Where one animal is planned.</summary>
internal sealed class Plan(AnimalState state)
{
    public AnimalState State { get; } = state;

    /// <summary>She left, or nothing was known of her yet: she is no animal of the herd that day.</summary>
    public bool IsOutside { get; init; }

    /// <summary>First day of the window she is planned in; absent = no need by the last day.</summary>
    public Day? Opens { get; init; }

    /// <summary>Last useful day.</summary>
    public Day? Closes { get; init; }

    /// <summary>The sampling day; absent = none.</summary>
    public Day? Day { get; set; }

    /// <summary>Whether the daily limit moved her.</summary>
    public bool Moved { get; set; }

    /// <summary>Her place among the animals in natural order.</summary>
    public int Rank { get; set; }

    /// <summary>Her answer on the day the list is made.</summary>
    public Verdict Today { get; init; }
}

/// <summary>Plans each animal with a need on one sampling day (rules B1, B2).</summary>
internal sealed class BleedPlanner(HerdRules rules, Day asOf, Day to)
{
    private readonly CandidateList _candidates = new();

    public Plan Plan(AnimalState state)
    {
        if (!state.Exists || state.Departure is not null)
        {
            return new Plan(state) { IsOutside = true };
        }

        // B2: no result is assumed to arrive, so the answers to come follow from today's facts alone.
        var today = TestWindows.Judge(state, rules, asOf, _candidates);
        for (Day? day = asOf; day is { } at;)
        {
            var verdict = at == asOf ? today : TestWindows.Judge(state, rules, at, _candidates);
            if (verdict is { Window: { } window, Answer: Answer.Eligible or Answer.NotYet, Reason: not AnswerReason.NoSamplingDay }
                && window.Opens <= to)
            {
                // Another programme version or confirmation may govern her by then: the day planned must hold on that day too.
                var planned = PlannedOn(window, at);
                if (planned is not { } on || on == at || TestWindows.Judge(state, rules, on, _candidates).Answer == Answer.Eligible)
                {
                    return new Plan(state) { Today = today, Opens = window.Opens, Closes = window.Closes, Day = planned };
                }

                day = on <= to ? on : null;
                continue;
            }

            day = TestWindows.NextChange(state, rules, at, verdict, to, _candidates);
        }

        return new Plan(state) { Today = today };
    }

    // B1: the last sampling day not after target and not before opens and today; if none, the first one on or after both.
    private Day? PlannedOn(Window window, Day notBefore)
    {
        var earliest = Day.Max(Day.Max(window.Opens, asOf), notBefore);
        return rules.LastSamplingDay(earliest, window.Target) ?? rules.FirstSamplingDay(earliest);
    }
}
