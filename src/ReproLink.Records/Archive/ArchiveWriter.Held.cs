using Dapper;

namespace ReproLink.Records;

/// <content>Held results, what was received, and mappings.</content>
internal sealed partial class ArchiveWriter
{
    private readonly Dictionary<(string Source, string SourceId), (long Revisions, KeptHeld? Open)> _held = [];
    private readonly Dictionary<string, KeptHeld> _heldById = new(StringComparer.Ordinal);
    private readonly List<(Calendar.Facts.FactId Fact, string Held)> _becomes = [];

    private static long HeldId(string text) =>
        HeldWriter.Parse(text) ?? throw new ArchiveContradictionException($"'{text}' is no id of a held result");

    private void Put(KeptHeld held, long sequence)
    {
        var identity = (held.Draft.Source, held.Draft.SourceId);
        var (revisions, open) = _held.GetValueOrDefault(identity);
        if (open is not null)
        {
            throw new ArchiveContradictionException($"two results of '{identity.Source}' '{identity.SourceId}' are held at once");
        }

        var id = HeldWriter.Insert(unit, herd, held.Draft, HeldRow.Of(held.Draft), revisions, held.At, sequence);
        if (HeldWriter.Text(id) != held.HeldId)
        {
            throw new ArchiveContradictionException($"the held result '{identity.Source}' '{identity.SourceId}' has the id {held.HeldId}; its own would be {HeldWriter.Text(id)}");
        }

        _held[identity] = (revisions + 1, held);
        _heldById.Add(held.HeldId, held);
    }

    private void Put(KeptHeldEnd kept, long sequence)
    {
        if (!_heldById.TryGetValue(kept.HeldId, out var held))
        {
            throw new ArchiveContradictionException($"there is no held result {kept.HeldId} before its end");
        }

        if (kept.End.Fact is { } fact)
        {
            // The same act appended it, a place before or after this one: looked for at the end.
            _becomes.Add((fact, kept.HeldId));
        }

        HeldWriter.InsertEnd(unit, herd, HeldId(kept.HeldId), sequence, kept.End);
        var identity = (held.Draft.Source, held.Draft.SourceId);
        _held[identity] = _held[identity] with { Open = null };
    }

    private void SettleHeld()
    {
        foreach (var (fact, held) in _becomes.Where(b => !_facts.ContainsKey(b.Fact)))
        {
            throw new ArchiveContradictionException($"the held result {held} became the fact {fact}, which is not there");
        }

        foreach (var open in _held.Values.Select(h => h.Open).OfType<KeptHeld>())
        {
            HeldWriter.InsertOpen(unit, herd, open.Draft, HeldId(open.HeldId));
        }
    }

    private void WriteReceived(HerdArchive archive)
    {
        foreach (var batch in archive.Batches)
        {
            RefuseLater(batch.At, $"the batch {batch.Batch}");
            unit.Connection.Sqlite.Execute(
                """
                INSERT INTO received_batch (herd, batch, recorded, sender, sent_by, name, media_type, header)
                VALUES (@herd, @Batch, @at, @Sender, @SentBy, @Name, @MediaType, @Header)
                """,
                new { herd, batch.Batch, at = Ticks.Of(batch.At), batch.Sender, batch.SentBy, batch.Name, batch.MediaType, batch.Header });
        }

        foreach (var line in archive.Lines)
        {
            ReceivedWriter.Insert(unit, herd, line);
        }
    }

    private void WriteMappings(HerdArchive archive)
    {
        foreach (var (table, mapping) in archive.ResultMappings.Select(m => (SenderMappings.OfResults, m))
            .Concat(archive.FactMappings.Select(m => (SenderMappings.OfFacts, m))))
        {
            RefuseLater(mapping.Saved, $"the mapping of '{mapping.Sender}'");
            MappingRow.Insert(unit.Connection, table, herd, mapping);
        }
    }

    private void RefuseLater(NodaTime.Instant at, string what)
    {
        if (at > now)
        {
            throw new ArchiveContradictionException($"{what} was recorded at {at}, which is later than now");
        }
    }
}
