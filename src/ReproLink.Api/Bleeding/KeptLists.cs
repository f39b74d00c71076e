using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using ReproLink.Api.Keeping;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Bleeding;

/// <summary>What is asked of a folded herd.</summary>
internal readonly record struct ListQuestion(Day From, Day To, Day AsOf, string? Pen, bool WithAll);

/// <summary>
/// The lists of folded herds, as JSON, for as long as the fold holds: every change of a herd makes another fold, and with it
/// these are forgotten. Of one fold a few questions are kept, those of everyday.
/// </summary>
internal static class KeptLists
{
    private const int MostOfOneFold = 8;
    private static readonly ConditionalWeakTable<IReadOnlyList<AnimalState>, ConcurrentDictionary<ListQuestion, KeptJson>> Kept = [];

    public static IResult Answer(HerdView view, ListQuestion question, Func<HerdView, ListQuestion, BleedListAnswer> make)
    {
        var answers = Kept.GetValue(view.Animals, static _ => new());
        if (!answers.TryGetValue(question, out var kept))
        {
            kept = KeptJson.Of(make(view, question), KnownAt(view));
            if (answers.Count >= MostOfOneFold)
            {
                answers.Clear();
            }

            answers[question] = kept;
        }

        return kept.With(KnownAt(view));
    }

    private static byte[] KnownAt(HerdView view) => KeptJson.Property("knownAt", view.KnownAt);
}
