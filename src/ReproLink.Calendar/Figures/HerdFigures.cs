using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures;

/// <summary>
/// The figures of a herd: each with numerator, denominator, interval and what was left out. Unknown is never counted as
/// open, and out of none there is no value.
/// </summary>
public static class HerdFigures
{
    /// <summary>Makes the figures of a period. Time and memory grow with the number of facts, not faster.</summary>
    /// <param name="animals">The herd, folded for <paramref name="asOf"/>.</param>
    /// <param name="rules">The herd's rules.</param>
    /// <param name="question">What is asked.</param>
    /// <param name="asOf">The day they are made on.</param>
    /// <param name="knownAt">The moment whose knowledge they rest on.</param>
    public static FigureSet Make(IReadOnlyList<AnimalState> animals, HerdRules rules, FigureQuestion question, Day asOf, Instant knownAt)
    {
        ArgumentNullException.ThrowIfNull(animals);
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(question);
        var answers = new AnswerDays(rules, asOf);
        IFigures[] makers =
        [
            new ServiceFigures(question, answers), new IntervalFigures(question), new CycleFigures(question, answers, asOf),
            new LactationFigures(question), new SurvivalFigures(question),
            new TestFigures(question), new AgreementFigures(question), new LossFigures(question), new WorkFigures(question, answers),
        ];
        foreach (var animal in animals)
        {
            if (!animal.Exists)
            {
                continue;
            }

            foreach (var lactation in AnimalRecord.Of(animal, rules, knownAt, question.WaitingPeriod))
            {
                var steps = PlannedSteps.Of(lactation, animal, rules, question, knownAt);
                foreach (var maker in makers)
                {
                    maker.Add(lactation, steps);
                }
            }
        }

        var made = makers.SelectMany(m => m.Figures()).ToDictionary(f => f.Id);
        var waiting = question.WaitingPeriod ?? AnimalRecord.WaitingPeriodOf(rules, question.To);
        return new FigureSet(question, asOf, waiting, [.. FigureBook.All.Select(d => made[d.Id])]);
    }
}

/// <summary>Makes some of the figures from lactations that come one after the other.</summary>
internal interface IFigures
{
    /// <summary>Counts a lactation.</summary>
    void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps);

    /// <summary>The figures, when all were counted.</summary>
    IEnumerable<Figure> Figures();
}
