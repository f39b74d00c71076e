using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.Tests.Generators;

namespace ReproLink.Calendar.Tests.Laws;

/// <summary>Random animals folded, and everything that is said of them written down, so that two calendars can be compared.</summary>
internal static class Folded
{
    public static AnimalState State(RandomAnimal animal, RandomHerd herd, FoldTrace? trace = null) =>
        State(animal.Animal, animal.Facts, herd.Rules, herd.AsOf, herd.KnownAt, trace);

    public static AnimalState State(
        string name, IEnumerable<Fact> facts, HerdRules rules, Day asOf, Instant knownAt, FoldTrace? trace = null) =>
        HistoryFold.Fold(AnimalHistory.Of(name, facts.Where(f => f.Recorded <= knownAt)), rules, asOf, knownAt, trace);

    public static BleedList Week(RandomHerd herd) => BleedLists.Make(
        [.. herd.Animals.Select(a => State(a, herd))], herd.Rules, herd.AsOf, herd.AsOf + 13, herd.AsOf);

    /// <summary>Status, answer, window, candidates, reasons and judgements of one animal on one day.</summary>
    public static string Everything(string name, IEnumerable<Fact> facts, HerdRules rules, Day asOf, Instant knownAt)
    {
        var trace = new FoldTrace();
        var state = State(name, facts, rules, asOf, knownAt, trace);
        var answer = TestWindows.Answer(state, rules, asOf);
        return string.Join('\n',
        [
            Comparison.Line(state, answer.Verdict),
            $"changes {answer.ChangesOn} target {answer.Verdict.Window?.Target} serves {answer.Verdict.Serves}",
            .. answer.Candidates.Select(c => c.ToString()),
            .. answer.Reasons.Select(r => $"{r.Rule} {r.Date} {r.Text} {string.Join(' ', r.Facts)}"),
            .. trace.Judgements.Select(j => $"{j.Fact} {j.Decides} {j.Effective} {string.Join(' ', j.Reasons.Select(r => r.Rule))}"),
            .. trace.Notes.Select(n => $"{n.Fact} {n.Reason.Rule} {n.Reason.Text}"),
            .. trace.Statuses.Select(s => s.ToString()),
        ]);
    }

    public static string Everything(RandomAnimal animal, RandomHerd herd) =>
        Everything(animal.Animal, animal.Facts, herd.Rules, herd.AsOf, herd.KnownAt);

    /// <summary>The lines of a bleed list that name an animal.</summary>
    public static string LinesOf(BleedList list, string animal) => string.Join('\n',
    [
        .. list.Days.SelectMany(d => d.Animals.Where(l => l.State.Animal == animal)
            .Select(l => $"{d.Date} {Comparison.Line(l.State, l.Answer.Verdict)} {l.Serves} {l.Moved}")),
        .. list.NotListed.Where(r => r.Animals.Any(a => a.Animal == animal)).Select(r => $"{r.Answer} {r.Reason}"),
    ]);
}
