using Dapper;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>
/// Everything a herd owns, as of one moment, row by row in a fixed order: two herds with the same records read the same. Usable
/// only while <see cref="HerdArchives.Read"/> looks.
/// </summary>
public sealed class HerdRecords
{
    private const string AllFacts =
        $"""
        SELECT {FactList.Columns}, w.sequence, w.withdrawn_by FROM change c JOIN fact f ON f.herd = c.herd AND f.fact = c.subject {FactList.Joins}
        WHERE c.herd = ?1 AND c.kind = 2 ORDER BY c.sequence
        """;

    private readonly Connection _connection;
    private readonly Dictionary<long, long> _order = [];

    internal HerdRecords(Connection connection, Herd herd)
    {
        (_connection, Herd) = (connection, herd);
        // A place of its own for every act on record; when the location was made or renamed is not among them.
        var changes = connection.Prepared("SELECT sequence FROM change WHERE herd = ?1 AND kind <> 1 ORDER BY sequence").Bind(1, herd.Id);
        while (changes.Step())
        {
            _order.Add(changes.Long(0), _order.Count + 1);
        }
    }

    /// <summary>The herd.</summary>
    public Herd Herd { get; }

    /// <summary>Every fact, withdrawn or not.</summary>
    public IEnumerable<KeptFact> Facts()
    {
        var rows = _connection.Prepared(AllFacts).Bind(1, Herd.Id);
        var texts = new TextPool();
        while (rows.Step())
        {
            var stored = FactList.Read(rows, texts);
            yield return new KeptFact(_order[stored.Sequence], stored.Animal, stored.Fact)
            {
                Withdrawn = stored.Withdrawn is { } at
                    ? new KeptWithdrawal(_order[rows.Long(15)], stored.Fact.Id, stored.WithdrawnReason!, rows.Text(16), at)
                    : null,
            };
        }
    }

    /// <summary>Every programme version.</summary>
    public IEnumerable<KeptProgramme> Programmes() => Query<KeptProgrammeRow>(KeptProgrammeRow.Select)
        .Select(row => new KeptProgramme(
            _order[row.Sequence], (int)row.Version, row.Draft != 0, ProgrammeJson.Read(row.Programme), row.Received, row.SavedBy, Ticks.From(row.Recorded)));

    /// <summary>Every approval.</summary>
    public IEnumerable<KeptApproval> Approvals() => Query<KeptApprovalRow>(KeptApprovalRow.Select)
        .Select(row => new KeptApproval(
            _order[row.Sequence], (int)row.Version, row.ApprovedBy, row.Expires is { } day ? new Day((int)day) : null, Ticks.From(row.Recorded)));

    /// <summary>Every refusal.</summary>
    public IEnumerable<KeptRefusal> Refusals() => Query<KeptRefusalRow>(KeptRefusalRow.Select)
        .Select(row => new KeptRefusal(_order[row.Sequence], (int)row.Version, row.RefusedBy, row.Note, Ticks.From(row.Recorded)));

    /// <summary>Every form of the herd's own protocols.</summary>
    public IEnumerable<KeptProtocol> Protocols() => Query<KeptProtocolRow>(KeptProtocolRow.Select)
        .Select(row => new KeptProtocol(_order[row.Sequence], row.Protocol, row.Definition, row.AddedBy, Ticks.From(row.Recorded)));

    /// <summary>Every confirmation of a recalled protocol.</summary>
    public IEnumerable<KeptConfirmation> Confirmations() => Query<KeptProtocolRow>(KeptProtocolRow.Confirmations)
        .Select(row => new KeptConfirmation(_order[row.Sequence], row.Protocol, row.AddedBy, Ticks.From(row.Recorded)));

    /// <summary>Every held result.</summary>
    public IEnumerable<KeptHeld> Held()
    {
        var ends = Query<KeptHeldEndRow>(KeptHeldEndRow.Select)
            .ToDictionary(row => row.Held);
        return Query<HeldRow>($"{HeldRow.Select} WHERE herd = @Id ORDER BY sequence")
            .Select(row => new KeptHeld(_order[row.Sequence], HeldWriter.Text(row.Held), row.ToHeldDraft(), Ticks.From(row.Recorded))
            {
                End = ends.TryGetValue(row.Held, out var end) ? new KeptHeldEnd(_order[end.Sequence], HeldWriter.Text(row.Held), end.ToEnd()) : null,
            });
    }

    /// <summary>Every round.</summary>
    public IEnumerable<KeptRound> Rounds() => Query<KeptRoundRow>(KeptRoundRow.Select)
        .Select(row => new KeptRound(
            _order[row.Sequence], (int)row.Round, new Day((int)row.Day), row.Name, row.Specimen, row.CreatedBy, Ticks.From(row.Recorded)));

    /// <summary>Every tube.</summary>
    public IEnumerable<KeptTube> Tubes() => Query<KeptTubeRow>(KeptTubeRow.Select)
        .Select(row => new KeptTube(
            _order[row.Sequence], (int)row.Round, (int)row.Number, new TubePlan(row.Animal, row.Pen, row.Need, (int?)row.DaysPostService),
            (int?)row.Redraws, row.AddedBy, Ticks.From(row.Recorded)));

    /// <summary>Everything that happened to tubes.</summary>
    public IEnumerable<KeptTubeEvent> TubeEvents() => Query<KeptTubeEventRow>(KeptTubeEventRow.Select)
        .Select(row => new KeptTubeEvent(_order[row.Sequence], row.Round, row.Number, row.ToEvent(), row.DoneBy));

    /// <summary>Every dispatch.</summary>
    public IEnumerable<KeptDispatch> Dispatches() => Query<KeptDispatchRow>(KeptDispatchRow.Select)
        .Select(row => new KeptDispatch(_order[row.Sequence], (int)row.Round, (int)row.Dispatch, Ticks.From(row.At), row.SentBy, Ticks.From(row.Recorded)));

    /// <summary>Every batch received.</summary>
    public IEnumerable<KeptBatch> Batches() => Query<ReceivedRow>(
            "SELECT batch, recorded, sender, sent_by AS SentBy, name, media_type AS MediaType, header FROM received_batch WHERE herd = @Id ORDER BY batch")
        .Select(row => new KeptBatch(row.Batch, Ticks.From(row.Recorded), row.Sender, row.SentBy, row.Name, row.MediaType, row.Header));

    /// <summary>Every line received.</summary>
    public IEnumerable<KeptLine> Lines() => Query<KeptLineRow>(KeptLineRow.Select)
        .Select(row => new KeptLine(
            row.Batch, (int)row.Item, (int?)row.Line, row.Raw, row.Source, row.SourceId, (ReceivedDecision)row.Decision, row.Why,
            row.Fact is { } fact ? new FactId(fact) : null, row.Held is { } held ? HeldWriter.Text(held) : null));

    /// <summary>Every version of the mappings of results.</summary>
    public IEnumerable<SavedMapping> ResultMappings() => Mappings(SenderMappings.OfResults);

    /// <summary>Every version of the mappings of herd files.</summary>
    public IEnumerable<SavedMapping> FactMappings() => Mappings(SenderMappings.OfFacts);

    private IEnumerable<SavedMapping> Mappings(string table) =>
        Query<MappingRow>($"{MappingRow.Columns} FROM {table} WHERE herd = @Id ORDER BY sender, version").Select(row => row.ToMapping());

    // Row by row: a herd's records need not fit into memory.
    private IEnumerable<T> Query<T>(string sql) => _connection.Sqlite.Query<T>(sql, new { Herd.Id }, buffered: false);
}
