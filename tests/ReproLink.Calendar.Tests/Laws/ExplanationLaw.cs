using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.Tests.Generators;

namespace ReproLink.Calendar.Tests.Laws;

/// <summary>Law 10: an explanation names only facts that exist; without all the facts it names the answer is another.</summary>
public sealed class ExplanationLaw
{
    [Fact]
    public void Law_10_explanations_name_only_facts_that_are_on_record_and_known() => RandomAnimals.Single.Holds(herd =>
    {
        var animal = herd.Animals[0];
        var trace = new FoldTrace();
        var answer = TestWindows.Answer(Folded.State(animal, herd, trace), herd.Rules, herd.AsOf);
        var known = animal.Facts.Where(f => f.Recorded <= herd.KnownAt && f.Day <= herd.AsOf).Select(f => f.Id).ToHashSet();
        Assert.All(answer.Reasons.SelectMany(r => r.Facts), id => Assert.Contains(id, known));
        Assert.All(answer.Candidates, c => Assert.True(c.Fact is not { } id || known.Contains(id)));
        Assert.All(trace.Judgements.SelectMany(j => j.Reasons).SelectMany(r => r.Facts), id => Assert.Contains(id, known));
        Assert.All(trace.Notes.SelectMany(n => n.Reason.Facts), id => Assert.Contains(id, known));
        Assert.NotEmpty(answer.Reasons);
    }, cases: 4_000);

    // Two facts may say the same (two opens of one week): then the second is named once the first is gone, and so on. What
    // must never be left is the same answer with no fact named for it.
    [Fact]
    public void Law_10_without_the_facts_it_names_the_answer_is_another() => RandomAnimals.Single.Holds(herd =>
    {
        var left = herd.Animals[0].Facts.ToList();
        var first = Answer(left, herd);
        var answer = first;
        while (Said(answer) == Said(first))
        {
            var named = answer.Reasons.SelectMany(r => r.Facts).ToHashSet();
            Assert.True(named.Count > 0 || answer == first, $"{Said(first)} is explained by facts, but stays without them: {string.Join("; ", first.Reasons)}");
            if (named.Count == 0) return;
            left.RemoveAll(f => named.Contains(f.Id));
            answer = Answer(left, herd);
        }
    }, cases: 4_000);

    private static WindowAnswer Answer(IEnumerable<Fact> facts, RandomHerd herd) =>
        TestWindows.Answer(Folded.State("1042", facts, herd.Rules, herd.AsOf, herd.KnownAt), herd.Rules, herd.AsOf);

    private static string Said(WindowAnswer answer) =>
        $"{answer.Verdict.Answer} {answer.Verdict.Reason} {answer.Verdict.Need} {answer.Verdict.Overdue} {answer.Verdict.Window}";
}
