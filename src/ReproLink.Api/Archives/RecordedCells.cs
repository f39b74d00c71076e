using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>What is known of the recording of a fact.</summary>
internal static class RecordedCells
{
    public static readonly string[] Columns = ["recordedAt", "withdrawnAt", "withdrawnOrder", "withdrawnBy", "withdrawnReason"];

    public static string?[] Write(KeptFact kept) =>
    [
        ArchiveText.Of(kept.At), ArchiveText.Of(kept.Withdrawn?.At), kept.Withdrawn is { } w ? ArchiveText.Of(w.Order) : null, kept.Withdrawn?.By, kept.Withdrawn?.Reason,
    ];

    public static KeptFact Read(ArchiveLine line, string animal, Fact fact)
    {
        var id = line.Fact("factId") ?? default;
        var whole = fact with { Id = id, Source = line.NameOf("source"), SourceId = line.NameOf("sourceId"), Recorded = line.Moment("recordedAt") };
        return new KeptFact(line.Whole("order"), animal, whole)
        {
            Withdrawn = line.MomentOrNull("withdrawnAt") is { } at
                ? new KeptWithdrawal(line.Whole("withdrawnOrder"), id, line.WordsOf("withdrawnReason") ?? "", line.By("withdrawnBy"), at)
                : null,
        };
    }
}
