using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.ReceivedResults;
using ReproLink.Records;

namespace ReproLink.Api.HeldResults;

/// <summary>A held result read again from what was received.</summary>
internal static class HeldReading
{
    /// <summary>What it said; null when it cannot be read any more.</summary>
    public static ReceivedResult? Again(HeldResult held, HerdRequest request)
    {
        using var content = JsonDocument.Parse(held.Draft.Content);
        var item = new BatchItem(0, content.RootElement, null, null);
        var (result, _) = new TestResultReader(request, held.Draft.Source).Read(item, new FieldProblems());
        return result is null ? null : result with { Fact = result.Fact with { Source = held.Draft.Source, SourceId = held.Draft.SourceId } };
    }

    public static string Text(string reason) => reason switch
    {
        HeldDraft.UnknownAnimal => "The herd has no animal of that name or identifier.",
        ResultMatcher.UnknownTube => "No such tube was labelled, and no sample names it.",
        ResultMatcher.Mismatch => "The tube is another animal's than the one named.",
        ResultMatcher.NoSample => "No blood of that day is on record in that tube, or of that animal.",
        ResultMatcher.Ambiguous => "More than one animal fits what it names.",
        _ => "It came without an outcome, and the herd's cut-offs do not judge its assay and unit.",
    };
}
