using ReproLink.Calendar.Figures;
using ReproLink.Calendar.Tests.Generators;
using ReproLink.Calendar.Tests.Laws;

namespace ReproLink.Calendar.Tests.Figures;

/// <summary>What must hold of every figure of every herd.</summary>
public sealed class FigureLaws
{
    private static FigureSet Make(RandomHerd herd, string? detail = null, bool reversed = false)
    {
        var animals = reversed ? herd.Animals.Reverse() : herd.Animals;
        return HerdFigures.Make(
            [.. animals.Select(a => Folded.State(a.Animal, reversed ? a.Facts.Reverse() : a.Facts, herd.Rules, herd.AsOf, herd.KnownAt))],
            herd.Rules, new FigureQuestion(RandomAnimals.Start - 300, herd.AsOf) { Detail = detail }, herd.AsOf, herd.KnownAt);
    }

    [Fact]
    public void A_value_stands_on_its_denominator_within_its_interval_or_says_why_there_is_none() => RandomAnimals.Herd.Holds(herd =>
    {
        foreach (var line in Make(herd).Figures.SelectMany(f => f.Lines))
        {
            Assert.True(line.Value is null == line.NoValue is not null, line.Key);
            Assert.True(line.Value is null || line.Denominator > 0, line.Key);
            if (line is { Unit: FigureUnit.Share, Value: { } share })
            {
                Assert.InRange(share, 0, 1);
                Assert.InRange(line.Numerator, 0, line.Denominator);
            }

            if (line is { Limits: { } limits, Value: { } value })
            {
                Assert.True(limits.Low <= value + 1e-9 && value <= limits.High + 1e-9, $"{line.Key} {line}");
            }
        }
    }, cases: 600);

    [Fact]
    public void The_order_in_which_animals_and_facts_come_changes_no_figure() => RandomAnimals.Herd.Holds(herd =>
        Assert.Equal(Text(Make(herd)), Text(Make(herd, reversed: true))), cases: 200);

    [Fact]
    public void Every_number_is_that_of_the_animals_behind_it() => RandomAnimals.Herd.Holds(herd =>
    {
        foreach (var id in FigureBook.All.Select(d => d.Id).Where(id => id is not ("days-to-pregnancy" or "pregnant-or-gone" or "pregnancy-rate-own-cycles" or "agreement")))
        {
            foreach (var line in Make(herd, id)[id].Lines)
            {
                var counted = line.Cases.Count(c => c.Part == CasePart.Counted);
                var all = counted + line.Cases.Count(c => c.Part == CasePart.NotCounted);
                var expected = line.Unit switch
                {
                    FigureUnit.Share => (line.Numerator, line.Denominator),
                    FigureUnit.Ratio => (line.Denominator, line.Numerator),
                    _ => (line.Denominator, line.Denominator),
                };
                Assert.Equal(expected, (counted, all));
                // Whole pending cycles are only counted: their cows stand in the cycles' own lines.
                Assert.Equal(
                    line.LeftOut.Where(l => l.Reason != LeftOutReason.Pending).Sum(l => l.Count),
                    line.Cases.Count(c => c.Part == CasePart.LeftOut && c.Reason != LeftOutReason.Pending));
            }
        }
    }, cases: 60);

    // By key, with days rounded: sums of doubles in another order differ in the last digit.
    private static string Text(FigureSet set) => string.Join('\n', set.Figures.SelectMany(f => f.Lines.Select(l =>
        $"{f.Id} {l.Key} {l.Numerator}/{l.Denominator} {l.Value:0.#########} {l.Median} {string.Join(' ', l.LeftOut)}")));
}
