using System.Text.Json;
using System.Text.Json.Nodes;
using ReproLink.Api.Composition;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>Programme versions, complete so that a default changed later changes none of them, their approvals and refusals.</summary>
internal static class ProgrammeFile
{
    private const int Most = 10_000;

    public static JsonObject Write(HerdRecords records) => new()
    {
        ["versions"] = new JsonArray([.. records.Programmes().Select(Version)]),
        ["approvals"] = new JsonArray([.. records.Approvals().Select(Approval)]),
        ["refusals"] = new JsonArray([.. records.Refusals().Select(Refusal)]),
    };

    public static (IReadOnlyList<KeptProgramme> Versions, IReadOnlyList<KeptApproval> Approvals, IReadOnlyList<KeptRefusal> Refusals) Read(ObjectReader reader, Day today, ProtocolCatalogue catalogue)
    {
        var versions = ArchiveJson.Items(reader, "versions", Most, item => ReadVersion(item, today, catalogue));
        var approvals = ArchiveJson.Items(reader, "approvals", Most, item => new KeptApproval(
            ArchiveJson.Order(item), item.Integer("version", 1, int.MaxValue, required: true) ?? 0, item.Text("approvedBy", ArchiveJson.By, required: true) ?? "",
            item.Day("expires"), item.Instant("approvedAt", required: true) ?? default));
        // Refusals withhold: they are put back whoever puts the herd back.
        var refusals = ArchiveJson.Items(reader, "refusals", Most, item => new KeptRefusal(
            ArchiveJson.Order(item), item.Integer("version", 1, int.MaxValue, required: true) ?? 0, item.Text("refusedBy", ArchiveJson.By, required: true) ?? "",
            item.Text("note", TextRule.Words, required: true) ?? "", item.Instant("refusedAt", required: true) ?? default));
        reader.Done();
        return (versions, approvals, refusals);
    }

    private static JsonObject Version(KeptProgramme kept) => new()
    {
        ["order"] = kept.Order,
        ["version"] = kept.Version,
        ["state"] = kept.Draft ? "draft" : "saved",
        ["savedBy"] = kept.SavedBy,
        ["savedAt"] = ArchiveText.Of(kept.At),
        ["programme"] = JsonSerializer.SerializeToNode(
            ProgrammeMapping.Input(kept.Programme) with { InForceFrom = kept.Programme.InForceFrom.Date }, JsonSetup.Options),
        ["received"] = kept.Received,
    };

    private static JsonObject Approval(KeptApproval kept) => ArchiveJson.WithoutNulls(new JsonObject
    {
        ["order"] = kept.Order,
        ["version"] = kept.Version,
        ["approvedBy"] = kept.By,
        ["approvedAt"] = ArchiveText.Of(kept.At),
        ["expires"] = ArchiveText.Of(kept.Expires),
    });

    private static JsonObject Refusal(KeptRefusal kept) => new()
    {
        ["order"] = kept.Order,
        ["version"] = kept.Version,
        ["refusedBy"] = kept.By,
        ["refusedAt"] = ArchiveText.Of(kept.At),
        ["note"] = kept.Note,
    };

    private static KeptProgramme ReadVersion(ObjectReader item, Day today, ProtocolCatalogue catalogue)
    {
        // Judged by the reader of the door: no floor is undercut this way either.
        var programme = item.Object("programme", required: true) is { } settings ? ProgrammeReader.Read(settings, today, catalogue) : Programme.Default;
        return new KeptProgramme(
            ArchiveJson.Order(item), item.Integer("version", 1, int.MaxValue, required: true) ?? 0,
            item.Word("state", ArchiveJson.States, required: true) == ArchiveJson.State.Draft, programme,
            item.Text("received", ArchiveJson.Raw, required: true) ?? "", item.Text("savedBy", ArchiveJson.By, required: true) ?? "",
            item.Instant("savedAt", required: true) ?? default);
    }
}
