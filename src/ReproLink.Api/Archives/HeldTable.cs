using System.Text.Json;
using ReproLink.Api.Composition;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>Held results, what each would become, and how each ended.</summary>
internal static class HeldTable
{
    public static readonly string[] Columns =
    [
        "order", "heldId", "source", "sourceId", "namedAnimal", "namedTube", "heldFor", "mayMean", "text", "animal", .. ResultTable.Finding, "receivedAt",
        "endedAt", "endOrder", "ending", "endedBy", "note", "becameFact",
    ];

    private static readonly Vocabulary<int> Endings = new(
        (HeldEnding.Released, 1), (HeldEnding.Assigned, 2), (HeldEnding.Dismissed, 3), (HeldEnding.Replaced, 4));

    public static string?[] Write(KeptHeld kept)
    {
        var (draft, end) = (kept.Draft, kept.End);
        return
        [
            ArchiveText.Of(kept.Order), kept.HeldId, draft.Source, draft.SourceId, draft.Animal, draft.Tube, draft.Reason,
            draft.MayMean.Count == 0 ? null : JsonSerializer.Serialize(draft.MayMean, JsonSetup.Options), draft.Content, draft.Draft?.Animal,
            .. draft.Draft is { } fact ? ResultTable.WriteFinding(fact.Fact) : new string?[ResultTable.Finding.Length], ArchiveText.Of(kept.At),
            ArchiveText.Of(end?.At), end is null ? null : ArchiveText.Of(end.Order), end?.End.Ending, end?.End.By, end?.End.Note, end?.End.Fact?.ToString(),
        ];
    }

    public static KeptHeld Read(ArchiveLine line, Day latest)
    {
        var (source, sourceId, id) = (line.NameOf("source"), line.NameOf("sourceId"), line.NameOf("heldId"));
        var draft = new HeldDraft(source, sourceId, line.NameOrNull("namedAnimal"), line.NameOrNull("namedTube"), line.NameOf("heldFor"), line.Raw("text"), Draft(line, source, sourceId, latest))
        {
            MayMean = MayMean(line),
        };
        return new KeptHeld(line.Whole("order"), id, draft, line.Moment("receivedAt")) { End = End(line, id) };
    }

    private static FactDraft? Draft(ArchiveLine line, string source, string sourceId, Day latest)
    {
        if (line.NameOrNull("animal") is not { } animal)
        {
            return null;
        }

        var fact = ResultTable.ReadFinding(line);
        FactTable.NotLater(line, "sampled", fact.Day, latest);
        return new FactDraft(animal, fact with { Source = source, SourceId = sourceId });
    }

    private static KeptHeldEnd? End(ArchiveLine line, string id)
    {
        if (line.MomentOrNull("endedAt") is not { } at)
        {
            return null;
        }

        line.Word("ending", Endings);
        return new KeptHeldEnd(line.Whole("endOrder"), id, new HeldEnd(line.Raw("ending"), line.By("endedBy"), line.WordsOf("note") ?? "", at, line.Fact("becameFact")));
    }

    private static string[] MayMean(ArchiveLine line)
    {
        if (line.RawOrNull("mayMean") is not { } text)
        {
            return [];
        }

        try
        {
            if (JsonSerializer.Deserialize<string[]>(text) is { } names && names.All(n => n is not null && TextRule.Name.Accepts(n)))
            {
                return names;
            }
        }
        catch (JsonException)
        {
            // Said below.
        }

        line.Refuse("mayMean", "a JSON list of animals");
        return [];
    }
}
