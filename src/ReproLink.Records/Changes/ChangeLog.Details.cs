using Dapper;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <content>Changes with what they were about.</content>
public sealed partial class ChangeLog
{
    /// <summary>As <see cref="After"/>, with what each change was about: all of it read at one moment.</summary>
    public Page<ChangeDetail> DetailsAfter(Herd herd, string? after, int limit)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var from = Cursor.Read(after);
        var changes = _readers.Read(connection => connection.Sqlite
            .Query<ChangeRow>(ChangeRow.Select, new { herd = herd.Id, from, limit })
            .Select(row => Detail(connection, herd.Id, row))
            .ToArray());
        return new Page<ChangeDetail>(changes, changes.Length > 0 ? Cursor.Write(changes[^1].Change.Sequence) : after);
    }

    /// <summary>Where a reader stands who has seen a change.</summary>
    public static string CursorOf(Change change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return Cursor.Write(change.Sequence);
    }

    /// <summary>Where a reader stands who has seen the change of a sequence number.</summary>
    public static string CursorOf(long sequence) => Cursor.Write(sequence);

    private static ChangeDetail Detail(Connection connection, long herd, ChangeRow row)
    {
        var change = row.ToChange();
        return change.Kind switch
        {
            ChangeKind.Fact or ChangeKind.Withdrawal => new ChangeDetail(change, FactList.Find(connection, herd, new FactId(row.Subject)), null),
            ChangeKind.Held or ChangeKind.HeldEnd => new ChangeDetail(change, null, HeldOf(connection, herd, row.Subject)),
            _ => new ChangeDetail(change, null, null),
        };
    }

    private static HeldResult? HeldOf(Connection connection, long herd, long held) => HeldRows.Find(connection, herd, held) is { } row
        ? new HeldResult(HeldWriter.Text(held), row.ToHeldDraft(), Ticks.From(row.Recorded), row.Sequence, HeldRows.FindEnd(connection, herd, held)?.ToEnd())
        : null;
}
