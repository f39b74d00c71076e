using NodaTime;

namespace ReproLink.Records;

/// <summary>Keeps what was received, in the transaction that decides about it.</summary>
internal static class ReceivedWriter
{
    private const string InsertBatch =
        """
        INSERT INTO received_batch (herd, batch, recorded, sender, sent_by, name, media_type, header)
        SELECT ?1, COALESCE(MAX(batch), 0) + 1, ?2, ?3, ?4, ?5, ?6, ?7 FROM received_batch WHERE herd = ?1
        RETURNING batch
        """;

    private const string InsertLine =
        """
        INSERT INTO received_line (herd, batch, item, line, raw, source, source_id, decision, why, fact, held)
        VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)
        """;

    /// <returns>The number of the batch.</returns>
    public static long Write(
        WriteUnit unit, long herd, Instant recorded, ReceivedBatch batch, IReadOnlyList<AppendAnswer> facts, IReadOnlyList<string> held)
    {
        var number = Number(unit, herd, recorded, batch);
        for (var i = 0; i < batch.Lines.Count; i++)
        {
            var line = batch.Lines[i];
            var fact = line.Fact is { } at ? facts[at] : null;
            unit.Connection.Prepared(InsertLine)
                .Bind(1, herd).Bind(2, number).Bind(3, i + 1L).Bind(4, (long?)line.Line).Bind(5, line.Raw)
                .Bind(6, line.Source).Bind(7, line.SourceId).Bind(8, (long)Decision(line, fact)).Bind(9, line.Why)
                .Bind(10, fact?.Id.Value).Bind(11, line.Held is { } h ? HeldWriter.Parse(held[h]) : null)
                .Run();
        }

        return number;
    }

    /// <summary>Writes the row of a line whose batch is on record.</summary>
    public static void Insert(WriteUnit unit, long herd, KeptLine line) => unit.Connection.Prepared(InsertLine)
        .Bind(1, herd).Bind(2, line.Batch).Bind(3, (long)line.Item).Bind(4, (long?)line.Line).Bind(5, line.Raw)
        .Bind(6, line.Source).Bind(7, line.SourceId).Bind(8, (long)line.Decision).Bind(9, line.Why)
        .Bind(10, line.Fact?.Value).Bind(11, line.HeldId is { } held ? HeldWriter.Parse(held) : null)
        .Run();

    private static ReceivedDecision Decision(ReceivedLine line, AppendAnswer? fact) => fact?.Status switch
    {
        AppendStatus.Accepted => ReceivedDecision.Accepted,
        AppendStatus.Replaced => ReceivedDecision.Replaced,
        AppendStatus.Duplicate => ReceivedDecision.Duplicate,
        _ => line.Held is null ? ReceivedDecision.Rejected : ReceivedDecision.Held,
    };

    private static long Number(WriteUnit unit, long herd, Instant recorded, ReceivedBatch batch)
    {
        var statement = unit.Connection.Prepared(InsertBatch)
            .Bind(1, herd).Bind(2, Ticks.Of(recorded)).Bind(3, batch.Sender).Bind(4, batch.SentBy).Bind(5, batch.Name)
            .Bind(6, batch.MediaType).Bind(7, batch.Header);
        statement.Step();
        var number = statement.Long(0);
        statement.Run();
        return number;
    }
}
