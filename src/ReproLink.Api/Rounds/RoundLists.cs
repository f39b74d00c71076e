using ReproLink.Api.Problems;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Api.Rounds;

/// <summary>From the bleed list, or from names, to the tubes of a round in the order of pens and animals.</summary>
internal static class RoundLists
{
    public static RoundPlan OfDay(AskedRound asked, HerdView view)
    {
        var asOf = Day.Min(view.AsOf, asked.Date);
        IReadOnlyList<BleedDay> days = asked.Date < view.AsOf ? [] : BleedLists.Make(Present(view), view.Rules, asked.Date, asked.Date, asOf).Days;
        return new RoundPlan(asked.Date, asked.Name, asked.Specimen,
            [.. days.SelectMany(d => d.Animals).Select(line => Plan(line.State, asked.Date, line.Answer.Verdict.Need))])
        { SkipPlanned = true };
    }

    /// <summary>The animals named; every name that is none of the herd's is reported.</summary>
    public static RoundPlan OfNames(AskedRound asked, HerdView view, FieldProblems problems)
    {
        var animals = new List<AnimalState>();
        for (var i = 0; i < asked.Animals!.Count; i++)
        {
            if (InHerd(view, asked.Animals[i]) is { } animal)
            {
                animals.Add(animal);
            }
            else
            {
                problems.Add(ProblemTypes.AnimalNotFound, $"animals/{i}", asked.Animals[i], "the herd's own name of an animal that is in it",
                    $"The herd has no animal '{asked.Animals[i]}'.");
            }
        }

        return new RoundPlan(asked.Date, asked.Name, asked.Specimen,
            [.. animals.OrderBy(a => a.Card?.Pen, NaturalOrder.Instance).ThenBy(a => a.Animal, NaturalOrder.Instance).Select(a => Plan(a, asked.Date, NeedOf(a, view, asked.Date)))]);
    }

    public static TubePlan Plan(AnimalState animal, HerdView view, Day date) => Plan(animal, date, NeedOf(animal, view, date));

    public static AnimalState? InHerd(HerdView view, string name) => view.Find(name) is { Exists: true, Departure: null } animal ? animal : null;

    private static TubePlan Plan(AnimalState animal, Day date, Need? need) =>
        new(animal.Animal, animal.Card?.Pen, need is { } n ? AnswerWords.Of(n) : null, animal.DaysPostService(date));

    private static Need? NeedOf(AnimalState animal, HerdView view, Day date) => TestWindows.Judge(animal, view.Rules, date).Need;

    private static IReadOnlyList<AnimalState> Present(HerdView view) =>
        view.Animals.All(a => a.Exists) ? view.Animals : [.. view.Animals.Where(a => a.Exists)];
}
