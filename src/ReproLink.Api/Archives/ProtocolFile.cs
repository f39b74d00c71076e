using System.Text.Json.Nodes;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Protocols;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>The herd's own protocols in every form they had, and recalled ones that a veterinarian answered for.</summary>
internal sealed record ProtocolFile(IReadOnlyList<KeptProtocol> Own, IReadOnlyList<KeptConfirmation> Confirmed, ProtocolCatalogue Catalogue)
{
    private const int Most = 10_000;

    public static JsonObject Write(HerdRecords records) => new()
    {
        ["own"] = new JsonArray([.. records.Protocols().Select(p => new JsonObject
        {
            ["order"] = p.Order,
            ["id"] = p.Id,
            ["definition"] = p.Definition,
            ["addedBy"] = p.By,
            ["addedAt"] = ArchiveText.Of(p.At),
        })]),
        ["confirmed"] = new JsonArray([.. records.Confirmations().Select(c => new JsonObject
        {
            ["order"] = c.Order,
            ["protocol"] = c.Protocol,
            ["confirmedBy"] = c.By,
            ["confirmedAt"] = ArchiveText.Of(c.At),
        })]),
    };

    public static ProtocolFile Read(ObjectReader reader)
    {
        var protocols = new Dictionary<string, Protocol>(StringComparer.Ordinal);
        var own = ArchiveJson.Items(reader, "own", Most, item =>
        {
            var kept = new KeptProtocol(
                ArchiveJson.Order(item), item.Text("id", ArchiveJson.Name, required: true) ?? "", item.Text("definition", ArchiveJson.Raw, required: true) ?? "",
                item.Text("addedBy", ArchiveJson.By, required: true) ?? "", item.Instant("addedAt", required: true) ?? default);
            Judge(item, kept, protocols);
            return kept;
        });
        var confirmed = ArchiveJson.Items(reader, "confirmed", Most, item => new KeptConfirmation(
            ArchiveJson.Order(item), item.Text("protocol", ArchiveJson.Name, required: true) ?? "", item.Text("confirmedBy", ArchiveJson.By, required: true) ?? "",
            item.Instant("confirmedAt", required: true) ?? default));
        reader.Done();
        return new ProtocolFile(own, confirmed, new ProtocolCatalogue(protocols.Values, confirmed.Select(c => c.Protocol)));
    }

    // As the door of protocols judges them: an ungated prostaglandin does not come in this way either.
    private static void Judge(ObjectReader item, KeptProtocol kept, Dictionary<string, Protocol> protocols)
    {
        try
        {
            var protocol = ProtocolReader.Read($"{kept.Id}.json", kept.Definition);
            if (protocol.Id != kept.Id || ProtocolLibrary.Find(protocol.Id) is not null)
            {
                item.Refuse("id", ProblemTypes.InvalidValue, "the id in the definition, and none of a published protocol");
            }

            protocols[protocol.Id] = protocol;
        }
        catch (ProtocolDefinitionException unsound)
        {
            item.Refuse("definition", ProblemTypes.BadProtocol, "a sound protocol", unsound.Reason);
        }
    }
}
