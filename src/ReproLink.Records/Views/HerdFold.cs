using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;

namespace ReproLink.Records;

/// <summary>A herd folded, and how long the fold holds while nothing is written.</summary>
/// <param name="Memory">What was folded.</param>
/// <param name="States">Its animals folded, in the same order.</param>
/// <param name="View">The same, for callers.</param>
/// <param name="From">First instant of the local day it is for.</param>
/// <param name="Until">First instant after that day.</param>
/// <param name="NextReport">The earliest instant at which a result on record becomes known; until then nothing comes of itself.</param>
internal sealed record HerdFold(HerdMemory Memory, AnimalState[] States, HerdView View, Instant From, Instant Until, Instant NextReport)
{
    /// <summary>Whether it is still what a look at <paramref name="now"/> would find.</summary>
    public bool Holds(Instant now) => now >= From && now < Until && Known(now) < NextReport;

    /// <summary>The moment a look at <paramref name="now"/> is as known at: never before what is on record was recorded.</summary>
    public Instant Known(Instant now) => Instant.Max(now, View.KnownAt);

    /// <summary>Folds a herd; animals unchanged since <paramref name="before"/> keep their fold while it holds.</summary>
    public static HerdFold Of(HerdMemory memory, Day asOf, Instant knownAt, HerdFold? before)
    {
        var reusable = before is not null
            && ReferenceEquals(before.Memory.Rules, memory.Rules)
            && before.View.AsOf == asOf
            && knownAt >= before.View.KnownAt
            && knownAt < before.NextReport;
        var next = reusable ? before!.NextReport : Instant.MaxValue;
        var states = new AnimalState[memory.Histories.Length];
        var old = reusable ? before!.Memory.Histories : [];
        var j = 0;
        for (var i = 0; i < states.Length; i++)
        {
            var history = memory.Histories[i];
            // Both are in natural order: those that left are passed over.
            while (j < old.Length && !ReferenceEquals(old[j], history) && NaturalOrder.Instance.Compare(old[j].Animal, history.Animal) < 0)
            {
                j++;
            }

            if (j < old.Length && ReferenceEquals(old[j], history))
            {
                states[i] = before!.States[j++];
                continue;
            }

            states[i] = HistoryFold.Fold(history, memory.Rules, asOf, knownAt);
            next = Instant.Min(next, NextReportOf(history.Facts, knownAt));
        }

        var view = new HerdView(memory.Herd, memory.Sequence, memory.Rules, asOf, knownAt, states);
        return new HerdFold(memory, states, view, memory.Rules.Zone.AtStartOfDay(asOf.Date).ToInstant(), memory.Rules.EndOf(asOf), next);
    }

    private static Instant NextReportOf(IReadOnlyList<Fact> facts, Instant knownAt)
    {
        var next = Instant.MaxValue;
        for (var i = 0; i < facts.Count; i++)
        {
            Instant? known = facts[i] switch
            {
                TestResult result => result.Known,
                Examination examination => examination.Known,
                _ => null,
            };
            if (known is { } at && at > knownAt && at < next)
            {
                next = at;
            }
        }

        return next;
    }
}
