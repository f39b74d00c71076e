using Dapper;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Records;

/// <summary>A saved version and who saved it.</summary>
/// <param name="Version">The version with its approvals.</param>
/// <param name="Draft">A draft never governs: it failed the check.</param>
/// <param name="SavedBy">The name of the key that saved it.</param>
public sealed record SavedProgramme(ProgrammeVersion Version, bool Draft, string SavedBy)
{
    /// <summary>The programme as it was sent.</summary>
    public string Json { get; init; } = "";
}

/// <summary>The programmes of herds: versions and approvals, never changed.</summary>
public sealed class ProgrammeBook
{
    private readonly Writer _writer;
    private readonly Readers _readers;

    internal ProgrammeBook(Writer writer, Readers readers) => (_writer, _readers) = (writer, readers);

    /// <summary>Saves a version.</summary>
    /// <param name="herd">The herd.</param>
    /// <param name="programme">The policy.</param>
    /// <param name="draft">Saved, but governs nothing.</param>
    /// <param name="json">The policy as it was sent.</param>
    /// <param name="by">Who saves it.</param>
    /// <param name="now">When.</param>
    /// <returns>Its number: 1, 2, 3 …</returns>
    public Task<int> Save(Herd herd, Programme programme, bool draft, string json, string by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => Save(unit, herd, programme, draft, json, by, now));
    }

    /// <summary>The same, at most once for an idempotency key.</summary>
    public Task<Once<int>> Save(
        Herd herd, Programme programme, bool draft, string json, string by, Instant now, IdempotencyRecord idempotency, Func<int, StoredAnswer> render)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => IdempotencyTable.Once(
            unit, herd.Id, idempotency, now, () => Save(unit, herd, programme, draft, json, by, now), render));
    }

    /// <summary>Approves a version.</summary>
    /// <returns>False when the herd has no such version.</returns>
    public Task<bool> Approve(Herd herd, int version, string by, Day? expires, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => Approve(unit, herd, version, by, expires, now));
    }

    /// <summary>The same, at most once for an idempotency key.</summary>
    public Task<Once<bool>> Approve(
        Herd herd, int version, string by, Day? expires, Instant now, IdempotencyRecord idempotency, Func<bool, StoredAnswer> render)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => IdempotencyTable.Once(
            unit, herd.Id, idempotency, now, () => Approve(unit, herd, version, by, expires, now), render));
    }

    /// <summary>Refuses a version with a note: approvals given before it hold no longer (S8).</summary>
    /// <returns>False when the herd has no such version.</returns>
    public Task<bool> Refuse(Herd herd, int version, string by, string note, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => Refuse(unit, herd, version, by, note, now));
    }

    /// <summary>The same, at most once for an idempotency key.</summary>
    public Task<Once<bool>> Refuse(
        Herd herd, int version, string by, string note, Instant now, IdempotencyRecord idempotency, Func<bool, StoredAnswer> render)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => IdempotencyTable.Once(
            unit, herd.Id, idempotency, now, () => Refuse(unit, herd, version, by, note, now), render));
    }

    /// <summary>The versions, approvals and refusals known at a moment (rule F1); null = now. Drafts too.</summary>
    public IReadOnlyList<SavedProgramme> List(Herd herd, Instant? knownAt)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => List(connection, herd.Id, Ticks.Of(knownAt)));
    }

    internal static IReadOnlyList<SavedProgramme> List(Connection connection, long herd, long? knownAt)
    {
        var of = new { herd, knownAt = knownAt ?? long.MaxValue };
        var approvals = connection.Sqlite
            .Query<ApprovalRow>(ApprovalRow.Select, of)
            .ToLookup(row => row.Version, row => row.ToApproval());
        var refusals = connection.Sqlite
            .Query<RefusalRow>(RefusalRow.Select, of)
            .ToLookup(row => row.Version, row => row.ToRefusal());
        return connection.Sqlite
            .Query<ProgrammeRow>(ProgrammeRow.Select, of)
            .Select(row => row.ToSaved([.. approvals[row.Version]], [.. refusals[row.Version]]))
            .ToArray();
    }

    private static int Save(WriteUnit unit, Herd herd, Programme programme, bool draft, string json, string by, Instant now)
    {
        var recorded = unit.Record(now);
        var version = unit.Connection.Sqlite.ExecuteScalar<long>(
            "SELECT COALESCE(MAX(version), 0) + 1 FROM programme WHERE herd = @Id", new { herd.Id });
        var sequence = unit.Change(herd.Id, recorded, ChangeKind.Programme, animal: null, version);
        Insert(unit.Connection, herd.Id, sequence, new KeptProgramme(sequence, (int)version, draft, programme, json, by, recorded));
        return (int)version;
    }

    internal static void Insert(Connection connection, long herd, long sequence, KeptProgramme kept) => connection.Sqlite.Execute(
        """
        INSERT INTO programme (herd, version, sequence, recorded, draft, programme, received, saved_by)
        VALUES (@herd, @Version, @sequence, @at, @Draft, @programme, @Received, @SavedBy)
        """,
        new { herd, kept.Version, sequence, at = Ticks.Of(kept.At), kept.Draft, programme = ProgrammeJson.Write(kept.Programme), kept.Received, kept.SavedBy });

    internal static void Insert(Connection connection, long herd, long sequence, KeptApproval kept) => connection.Sqlite.Execute(
        """
        INSERT INTO approval (herd, version, sequence, recorded, approved_by, expires)
        VALUES (@herd, @Version, @sequence, @at, @By, @expires)
        """,
        new { herd, kept.Version, sequence, at = Ticks.Of(kept.At), kept.By, expires = kept.Expires?.Number });

    internal static void Insert(Connection connection, long herd, long sequence, KeptRefusal kept) => connection.Sqlite.Execute(
        """
        INSERT INTO refusal (herd, version, sequence, recorded, refused_by, note)
        VALUES (@herd, @Version, @sequence, @at, @By, @Note)
        """,
        new { herd, kept.Version, sequence, at = Ticks.Of(kept.At), kept.By, kept.Note });

    private static bool Approve(WriteUnit unit, Herd herd, int version, string by, Day? expires, Instant now)
    {
        if (!IsThere(unit, herd, version))
        {
            return false;
        }

        var recorded = unit.Record(now);
        var sequence = unit.Change(herd.Id, recorded, ChangeKind.Approval, animal: null, version);
        Insert(unit.Connection, herd.Id, sequence, new KeptApproval(sequence, version, by, expires, recorded));
        return true;
    }

    private static bool Refuse(WriteUnit unit, Herd herd, int version, string by, string note, Instant now)
    {
        if (!IsThere(unit, herd, version))
        {
            return false;
        }

        var recorded = unit.Record(now);
        var sequence = unit.Change(herd.Id, recorded, ChangeKind.Refusal, animal: null, version);
        Insert(unit.Connection, herd.Id, sequence, new KeptRefusal(sequence, version, by, note, recorded));
        return true;
    }

    private static bool IsThere(WriteUnit unit, Herd herd, int version) => unit.Connection.Sqlite.ExecuteScalar<long>(
        "SELECT count(*) FROM programme WHERE herd = @Id AND version = @version", new { herd.Id, version }) > 0;
}
