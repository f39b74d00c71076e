using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>
/// Answers, for one animal and day, whether she may be bled, why not, and when the answer changes (rules W1–W3). Facts are
/// frozen: the day asked about may be later than the day the animal was folded for, never earlier.
/// </summary>
public static class TestWindows
{
    /// <summary>The answer with its candidates and the day it next changes.</summary>
    /// <param name="state">The animal.</param>
    /// <param name="rules">The herd's rules.</param>
    /// <param name="on">The day asked about, on or after <see cref="AnimalState.AsOf"/>.</param>
    public static WindowAnswer Answer(AnimalState state, HerdRules rules, Day on)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentOutOfRangeException.ThrowIfLessThan(on, state.AsOf);
        var candidates = new CandidateList();
        var verdict = Judge(state, rules, on, candidates);
        return new WindowAnswer(state, on, verdict, NextChange(state, rules, on, verdict), [.. candidates.Items], candidates.Binding);
    }

    /// <summary>The answer alone, without explanation.</summary>
    public static Verdict Judge(AnimalState state, HerdRules rules, Day on) => Judge(state, rules, on, new CandidateList());

    internal static Verdict Judge(AnimalState state, HerdRules rules, Day on, CandidateList candidates)
    {
        candidates.Clear();
        if (state.Departure is not null)
        {
            return new Verdict(null, AnswerReason.Need, null, false);
        }

        var programme = state.GoverningProgramme(rules, on);
        if (state.DoNotBreed is not null && !programme.Test.TestDoNotBreed)
        {
            return NotNeeded(AnswerReason.DoNotBreed);
        }

        var asked = NeedRules.Find(state, programme, on);
        if (asked.Need is not { } need)
        {
            return NotNeeded(asked.None) with { Until = asked.Until };
        }

        return new WindowRules(state, rules, programme, on, candidates).Judge(need, asked.Confirmation);
    }

    /// <summary>The next day on which answer, need or overdue differ with the facts frozen; null = never (rule W3).</summary>
    public static Day? NextChange(AnimalState state, HerdRules rules, Day on, Verdict now)
    {
        ArgumentNullException.ThrowIfNull(state);
        return NextChange(state, rules, on, now, Day.Latest, new CandidateList());
    }

    /// <summary>The same, looked for up to a day only: null = none up to then.</summary>
    internal static Day? NextChange(AnimalState state, HerdRules rules, Day on, Verdict now, Day upTo, CandidateList candidates)
    {
        var verdict = now;
        for (var day = NextBreak(state, rules, on, verdict); day is { } at && at <= upTo; day = NextBreak(state, rules, at, verdict))
        {
            verdict = Judge(state, rules, at, candidates);
            if (!verdict.SameAs(now))
            {
                return at;
            }
        }

        return null;
    }

    // Every day on which a verdict can change: the ends of its window, the day it waits for, the first and last days of the
    // confirmation windows and the first days of programme versions.
    private static Day? NextBreak(AnimalState state, HerdRules rules, Day after, Verdict verdict)
    {
        Day? next = null;
        void Take(Day? day)
        {
            if (day is { } one && one > after && (next is not { } best || one < best))
            {
                next = one;
            }
        }

        Take(verdict.Window?.Opens);
        Take(verdict.Window?.Closes + 1);
        Take(verdict.Until);
        if (state.Pregnancy?.To is { } dated)
        {
            foreach (var window in state.GoverningProgramme(rules, after).Confirmations)
            {
                Take(dated + window.From);
                Take(dated + window.To + 1);
            }
        }

        if (state.GoverningDay(after) == after)
        {
            foreach (var version in rules.Versions)
            {
                Take(version.Programme.InForceFrom);
            }
        }

        return next;
    }

    private static Verdict NotNeeded(AnswerReason reason) => new(Testing.Answer.NotNeeded, reason, null, false);
}
