using Dapper;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>Which received lines are asked for; what is absent does not narrow.</summary>
public sealed record ReceivedQuery
{
    /// <summary>The lines behind this fact, also those that were held first.</summary>
    public FactId? Fact { get; init; }

    /// <summary>The lines behind this held result.</summary>
    public string? HeldId { get; init; }

    /// <summary>The lines of one batch.</summary>
    public long? Batch { get; init; }

    /// <summary>The lines of one decision.</summary>
    public ReceivedDecision? Decision { get; init; }

    /// <summary>The lines of one sender.</summary>
    public string? Sender { get; init; }
}

/// <summary>What was received, line by line, and what became of it.</summary>
public sealed class ReceivedLog
{
    private const long ItemsABatch = 1_000_000;

    private readonly Readers _readers;

    internal ReceivedLog(Readers readers) => _readers = readers;

    /// <summary>Lines in the order in which they were received.</summary>
    public Page<StoredLine> List(Herd herd, ReceivedQuery query, string? after, int limit)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(query);
        var from = Cursor.Read(after);
        var lines = _readers.Read(connection => connection.Sqlite.Query<ReceivedRow>(
            $"{ReceivedRow.Select} {Where(query)} AND (l.batch, l.item) > (@batchAfter, @itemAfter) ORDER BY l.batch, l.item LIMIT @most",
            new
            {
                herd = herd.Id,
                fact = query.Fact?.Value,
                held = query.HeldId is { } id ? HeldWriter.Parse(id) : null,
                batch = query.Batch,
                decision = (int?)query.Decision,
                sender = query.Sender,
                batchAfter = from / ItemsABatch,
                itemAfter = from % ItemsABatch,
                most = limit + 1,
            })
            .Select(row => row.ToLine())
            .ToList());
        var more = lines.Count > limit;
        return new Page<StoredLine>(
            more ? lines[..limit] : lines, more ? Cursor.Write((lines[limit - 1].Batch * ItemsABatch) + lines[limit - 1].Item) : null);
    }

    /// <summary>The latest batches, each with how many of its lines became what.</summary>
    public IReadOnlyList<ReceivedGlance> Latest(Herd herd, int most)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => connection.Sqlite
            .Query<GlanceRow>(
                GlanceRow.Select,
                new { herd = herd.Id, most })
            .Select(row => new ReceivedGlance(row.Batch, Ticks.From(row.Recorded), row.Sender, row.Name, row.Lines, row.Held, row.Rejected))
            .ToList());
    }

    /// <summary>The lines behind each of some facts.</summary>
    public ILookup<FactId, StoredLine> Behind(Herd herd, IReadOnlyCollection<FactId> facts)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(facts);
        return _readers.Read(connection => facts
            .SelectMany(fact => connection.Sqlite
                .Query<ReceivedRow>($"{ReceivedRow.Select} {Where(new ReceivedQuery { Fact = fact })} ORDER BY l.batch, l.item", new { herd = herd.Id, fact = fact.Value })
                .Select(row => (Fact: fact, Line: row.ToLine()))
                .ToList())
            .ToLookup(pair => pair.Fact, pair => pair.Line));
    }

    private static string Where(ReceivedQuery query) =>
        "WHERE l.herd = @herd"
        + (query.Fact is null ? "" : $" AND (l.fact = @fact OR l.held IN ({ReceivedRow.HeldBehindFact}))")
        + (query.HeldId is null ? "" : $" AND l.held IN ({ReceivedRow.HeldAlike})")
        + (query.Batch is null ? "" : " AND l.batch = @batch")
        + (query.Decision is null ? "" : " AND l.decision = @decision")
        + (query.Sender is null ? "" : " AND b.sender = @sender");
}

/// <summary>A batch counted.</summary>
internal sealed class GlanceRow
{
    public const string Select =
        """
        SELECT b.batch, b.recorded, b.sender, b.name, count(l.item) AS Lines, count(*) FILTER (WHERE l.decision = 4) AS Held,
          count(*) FILTER (WHERE l.decision = 5) AS Rejected
        FROM (SELECT * FROM received_batch WHERE herd = @herd ORDER BY batch DESC LIMIT @most) b
        LEFT JOIN received_line l ON l.herd = b.herd AND l.batch = b.batch
        GROUP BY b.batch, b.recorded, b.sender, b.name ORDER BY b.batch DESC
        """;

    public long Batch { get; init; }

    public long Recorded { get; init; }

    public string Sender { get; init; } = "";

    public string? Name { get; init; }

    public int Lines { get; init; }

    public int Held { get; init; }

    public int Rejected { get; init; }
}

/// <summary>A row of <c>received_line</c> with its batch.</summary>
internal sealed class ReceivedRow
{
    public const string Select =
        """
        SELECT l.batch, l.item, l.line, b.name, b.sender, b.sent_by AS SentBy, b.recorded, b.media_type AS MediaType, b.header, l.raw,
          l.source_id AS SourceId, l.decision, l.why, l.fact, l.held
        FROM received_line l JOIN received_batch b ON b.herd = l.herd AND b.batch = l.batch
        """;

    /// <summary>A held result that was opened again has a new id and the same content.</summary>
    public const string HeldBehindFact =
        """
        SELECT same.held FROM held_end e
        JOIN held was ON was.herd = e.herd AND was.held = e.held
        JOIN held same ON same.herd = was.herd AND same.source = was.source AND same.source_id = was.source_id AND same.content = was.content
        WHERE e.herd = @herd AND e.fact = @fact
        """;

    public const string HeldAlike =
        """
        SELECT same.held FROM held was
        JOIN held same ON same.herd = was.herd AND same.source = was.source AND same.source_id = was.source_id AND same.content = was.content
        WHERE was.herd = @herd AND was.held = @held
        """;

    public long Batch { get; init; }

    public int Item { get; init; }

    public int? Line { get; init; }

    public string? Name { get; init; }

    public string Sender { get; init; } = "";

    public string SentBy { get; init; } = "";

    public long Recorded { get; init; }

    public string MediaType { get; init; } = "";

    public string? Header { get; init; }

    public string Raw { get; init; } = "";

    public string? SourceId { get; init; }

    public int Decision { get; init; }

    public string? Why { get; init; }

    public long? Fact { get; init; }

    public long? Held { get; init; }

    public StoredLine ToLine() => new(
        Batch, Item, Line, Name, Sender, SentBy, Ticks.From(Recorded), MediaType, Header, Raw, SourceId, (ReceivedDecision)Decision, Why,
        Fact is { } fact ? new FactId(fact) : null, Held is { } held ? HeldWriter.Text(held) : null);
}
