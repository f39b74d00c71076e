using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using NodaTime;
using ReproLink.Api.Keeping;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Api.Animals;

/// <summary>
/// Answers about animals of folded herds, as JSON, for as long as the fold holds. Her plan is not kept: its steps pass with the hours
/// of the day.
/// </summary>
internal static class KeptWindows
{
    private const int MostOfOneFold = 2_000;
    private static readonly ConditionalWeakTable<IReadOnlyList<AnimalState>, ConcurrentDictionary<(string Animal, Day On), KeptJson>> Kept = [];

    public static IResult Answer(HerdView view, AnimalState state, Day on)
    {
        var answers = Kept.GetValue(view.Animals, static _ => new());
        if (!answers.TryGetValue((state.Animal, on), out var kept))
        {
            kept = Written(view, state, on);
            if (answers.Count >= MostOfOneFold)
            {
                answers.Clear();
            }

            answers[(state.Animal, on)] = kept;
        }

        return kept.With(KnownAt(view.KnownAt), Plan(AnimalMapping.Plan(state, view.Rules, view.KnownAt)));
    }

    private static KeptJson Written(HerdView view, AnimalState state, Day on)
    {
        var answer = AnimalMapping.Answer(TestWindows.Answer(state, view.Rules, on), view.Rules, view.KnownAt) with { Plan = [] };
        return KeptJson.Of(answer, KnownAt(view.KnownAt), Plan([]));
    }

    private static byte[] KnownAt(Instant knownAt) => KeptJson.Property("knownAt", knownAt);

    private static byte[] Plan(IReadOnlyList<PlanStepAnswer> steps) => KeptJson.Property("plan", steps);
}
