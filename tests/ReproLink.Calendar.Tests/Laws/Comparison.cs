using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.Tests.Oracle;

namespace ReproLink.Calendar.Tests.Laws;

/// <summary>Puts the engine's and the naive reference's answers side by side, in the same words.</summary>
internal static class Comparison
{
    /// <summary>What the engine says, in one line.</summary>
    public static string Engine(IReadOnlyList<Fact> facts, HerdRules rules, Day asOf, Instant knownAt, Day on)
    {
        var state = HistoryFold.Fold(AnimalHistory.Of("1042", facts.Where(f => f.Recorded <= knownAt)), rules, asOf, knownAt);
        return Line(state, TestWindows.Judge(state, rules, on));
    }

    /// <summary>The engine's verdict on a state it folded.</summary>
    public static string Line(AnimalState state, Verdict verdict)
    {
        var letters = new string([.. state.Conflicts.Select(c => c.Letter).Distinct().Order()]);
        var status = $"{StatusWords.Of(state.Status)}/{StatusWords.Of(state.Underneath)} [{letters}] {state.Pregnancy?.From}..{Dated(state)}";
        if (verdict.Answer is not { } answer) return status + " | outside";
        var need = verdict.Need is { } asked ? AnswerWords.Of(asked) : "";
        return Write(status, AnswerWords.Of(answer), AnswerWords.Of(verdict.Reason, verdict.Need), need, verdict.Overdue, verdict.Window?.Opens, verdict.Window?.Closes);
    }

    /// <summary>What the naive reference says, in the same line.</summary>
    public static string Oracle(IReadOnlyList<Fact> facts, HerdRules rules, Day asOf, Instant knownAt, Day on)
    {
        var status = NaiveStatus.Of(facts, rules, asOf, knownAt);
        var line = $"{status.Shown}/{status.Underneath} [{status.Conflicts}] {status.DatedFrom}..{status.DatedTo}";
        return new NaiveWindow(facts, rules, asOf, knownAt).Answer(on) is { } a
            ? Write(line, a.Answer, a.Reason, a.Need ?? "", a.Overdue, a.Opens, a.Closes)
            : line + " | outside";
    }

    private static string Dated(AnimalState state) => state.Pregnancy?.To?.ToString() ?? "";

    private static string Write(string status, string answer, string reason, string need, bool overdue, Day? opens, Day? closes) =>
        $"{status} | {answer} {reason} need={need} overdue={overdue} opens={opens} closes={closes}";
}
