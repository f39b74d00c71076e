using ReproLink.Api.Intake;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>What was received, as received.</summary>
internal static class ReceivedTables
{
    public static readonly string[] Batches = ["batch", "recordedAt", "sender", "sentBy", "file", "mediaType", "header"];

    public static readonly string[] Lines = ["batch", "item", "line", "text", "source", "sourceId", "decision", "why", "factId", "heldId"];

    public static string?[] Write(KeptBatch kept) =>
        [ArchiveText.Of(kept.Batch), ArchiveText.Of(kept.At), kept.Sender, kept.SentBy, kept.Name, kept.MediaType, kept.Header];

    public static string?[] Write(KeptLine kept) =>
    [
        ArchiveText.Of(kept.Batch), ArchiveText.Of(kept.Item), ArchiveText.Of(kept.Line), kept.Raw, kept.Source, kept.SourceId,
        ReceivedEndpoints.Decisions.Word(kept.Decision), kept.Why, kept.Fact?.ToString(), kept.HeldId,
    ];

    public static KeptBatch ReadBatch(ArchiveLine line) => new(
        line.Whole("batch"), line.Moment("recordedAt"), line.By("sender"), line.By("sentBy"), line.WordsOf("file"), line.NameOf("mediaType"), line.RawOrNull("header"));

    public static KeptLine ReadLine(ArchiveLine line) => new(
        line.Whole("batch"), line.Whole("item"), line.WholeOrNull("line"), line.Raw("text"), line.RawOrNull("source"), line.RawOrNull("sourceId"),
        line.Word("decision", ReceivedEndpoints.Decisions), line.RawOrNull("why"), line.Fact("factId"), line.NameOrNull("heldId"));
}
