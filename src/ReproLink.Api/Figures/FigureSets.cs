using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using ReproLink.Calendar.Figures;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Figures;

/// <summary>
/// The figures of a folded herd, for as long as the fold holds: every change makes another fold, and with it these are forgotten.
/// Few questions of one fold are kept, none with its animals.
/// </summary>
internal static class FigureSets
{
    private const int MostOfOneFold = 4;
    private static readonly ConditionalWeakTable<IReadOnlyList<AnimalState>, ConcurrentDictionary<FigureQuestion, FigureSet>> Kept = [];

    public static FigureSet Of(HerdView view, FigureQuestion question)
    {
        if (question.Detail is not null)
        {
            return Make(view, question);
        }

        var sets = Kept.GetValue(view.Animals, static _ => new());
        if (!sets.TryGetValue(question, out var set))
        {
            set = Make(view, question);
            if (sets.Count >= MostOfOneFold)
            {
                sets.Clear();
            }

            sets[question] = set;
        }

        return set;
    }

    private static FigureSet Make(HerdView view, FigureQuestion question) =>
        HerdFigures.Make(view.Animals, view.Rules, question, view.AsOf, view.KnownAt);
}
