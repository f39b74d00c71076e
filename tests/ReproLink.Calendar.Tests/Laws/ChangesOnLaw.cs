using ReproLink.Calendar.Testing;
using ReproLink.Calendar.Tests.Generators;

namespace ReproLink.Calendar.Tests.Laws;

/// <summary>Law 7: the tuple is constant up to the day before <c>changesOn</c> and differs on it.</summary>
public sealed class ChangesOnLaw
{
    private const int Horizon = 500;

    [Fact]
    public void Law_7_changesOn_is_right_day_by_day() => RandomAnimals.Single.Holds(herd =>
    {
        var state = Folded.State(herd.Animals[0], herd);
        var answer = TestWindows.Answer(state, herd.Rules, herd.AsOf);
        var last = answer.ChangesOn ?? herd.AsOf + Horizon;
        for (var day = herd.AsOf + 1; day < last; day += 1)
        {
            var verdict = TestWindows.Judge(state, herd.Rules, day);
            Assert.True(verdict.SameAs(answer.Verdict), $"said to change on {answer.ChangesOn}, but {verdict} on {day}");
        }

        if (answer.ChangesOn is { } change)
            Assert.False(TestWindows.Judge(state, herd.Rules, change).SameAs(answer.Verdict), $"nothing changes on {change}");
    }, cases: 2_500);

    [Fact]
    public void A_later_day_asked_from_the_same_facts_is_what_the_chain_of_changes_says() => RandomAnimals.Single.Holds(herd =>
    {
        var state = Folded.State(herd.Animals[0], herd);
        var day = herd.AsOf;
        for (var hops = 0; hops < 12 && TestWindows.Answer(state, herd.Rules, day) is { ChangesOn: { } next } answer; hops++)
        {
            Assert.True(TestWindows.Judge(state, herd.Rules, next - 1).SameAs(answer.Verdict));
            day = next;
        }
    }, cases: 2_500);
}
