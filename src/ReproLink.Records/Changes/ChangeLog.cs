using Dapper;
using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>One change of a herd.</summary>
/// <param name="Sequence">Its place in the order of all changes.</param>
/// <param name="Recorded">When it was recorded.</param>
/// <param name="Kind">What it was.</param>
/// <param name="Animal">The animal it was about; null when it was about the herd.</param>
/// <param name="Subject">The id of the fact or held result, or the number of the programme version.</param>
public sealed record Change(long Sequence, Instant Recorded, ChangeKind Kind, string? Animal, string Subject);

/// <summary>What changed, in order.</summary>
public sealed partial class ChangeLog
{
    private readonly Readers _readers;

    internal ChangeLog(Readers readers) => _readers = readers;

    /// <summary>The changes after a cursor; null = from the start.</summary>
    /// <returns>A page whose <c>Next</c> is always set once there was a change: it is where to look again later.</returns>
    public Page<Change> After(Herd herd, string? after, int limit)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var from = Cursor.Read(after);
        var changes = _readers.Read(connection => connection.Sqlite.Query<ChangeRow>(ChangeRow.Select, new { herd = herd.Id, from, limit }))
            .Select(row => row.ToChange())
            .ToArray();
        return new Page<Change>(changes, changes.Length > 0 ? Cursor.Write(changes[^1].Sequence) : after);
    }
}

/// <summary>A row of <c>change</c>.</summary>
internal sealed class ChangeRow
{
    public const string Select =
        """
        SELECT c.sequence, c.recorded, c.kind, a.name AS animal, c.subject
        FROM change c LEFT JOIN animal a ON a.herd = c.herd AND a.animal = c.animal
        WHERE c.herd = @herd AND c.sequence > @from ORDER BY c.sequence LIMIT @limit
        """;

    public const string SelectKinds =
        """
        SELECT c.sequence, c.recorded, c.kind, a.name AS animal, c.subject
        FROM change c LEFT JOIN animal a ON a.herd = c.herd AND a.animal = c.animal
        WHERE c.herd = @herd AND c.sequence > @after AND (@kinds >> c.kind) & 1 ORDER BY c.sequence LIMIT @few
        """;

    public long Sequence { get; init; }

    public long Recorded { get; init; }

    public long Kind { get; init; }

    public string? Animal { get; init; }

    public long Subject { get; init; }

    public Change ToChange() => new(Sequence, Ticks.From(Recorded), (ChangeKind)Kind, Animal, (ChangeKind)Kind switch
    {
        ChangeKind.Fact or ChangeKind.Withdrawal => new FactId(Subject).ToString(),
        ChangeKind.Held or ChangeKind.HeldEnd => HeldWriter.Text(Subject),
        _ => Subject.ToString(System.Globalization.CultureInfo.InvariantCulture),
    });
}
