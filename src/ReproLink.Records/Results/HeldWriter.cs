using Dapper;
using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>Holds results and ends them, inside a request of the writer.</summary>
internal static class HeldWriter
{
    private const string IdentityPrefix = "held\0";

    public static string Text(long held) => string.Concat("h_", new FactId(held).ToString().AsSpan(2));

    public static long? Parse(string text) =>
        text.StartsWith("h_", StringComparison.Ordinal) && FactId.TryParse(string.Concat("f_", text.AsSpan(2)), out var id) ? id.Value : null;

    public static bool Any(Connection connection, long herd)
    {
        var statement = connection.Prepared("SELECT 1 FROM held_open WHERE herd = ?1 LIMIT 1").Bind(1, herd);
        var any = statement.Step();
        statement.Reset();
        return any;
    }

    public static string? WaitsFor(HeldDraft draft) => draft.Reason == HeldDraft.UnknownAnimal ? draft.Draft?.Animal : null;

    /// <summary>
    /// Holds a result. The same again, open or settled, is the one on record: a laboratory that sends a file twice does not
    /// undo a person's decision. Other content takes its place, and that of a fact of the same identity, which would
    /// otherwise go on deciding about an animal that its sender no longer names.
    /// </summary>
    public static long Hold(WriteUnit unit, long herd, HeldDraft draft, Instant recorded)
    {
        var row = HeldRow.Of(draft);
        var latest = HeldRows.Latest(unit.Connection, herd, draft.Source, draft.SourceId);
        if (latest is not null && latest.SameContent(row) && HeldRows.StillDecides(unit.Connection, herd, latest.Held))
        {
            return latest.Held;
        }

        EndOpen(unit, herd, draft.Source, draft.SourceId, recorded, HeldEnding.Replaced, draft.Source);
        FactAppender.WithdrawStanding(unit, herd, draft.Source, draft.SourceId, recorded, "replaced by a held result");
        return Open(unit, herd, draft, row, (latest?.Revision ?? -1) + 1, recorded);
    }

    /// <summary>Holds once more what a person had settled. An animal that has yet to appear still releases it.</summary>
    public static long HoldAgain(WriteUnit unit, long herd, HeldRow row, Instant recorded) =>
        Open(unit, herd, row.ToHeldDraft(), row, row.Revision + 1, recorded);

    private static long Open(WriteUnit unit, long herd, HeldDraft draft, HeldRow row, long revision, Instant recorded)
    {
        var held = Insert(unit, herd, draft, row, revision, recorded);
        InsertOpen(unit, herd, draft, held);
        return held;
    }

    /// <summary>Writes the row that says a held result waits.</summary>
    public static void InsertOpen(WriteUnit unit, long herd, HeldDraft draft, long held) => unit.Connection.Sqlite.Execute(
        "INSERT INTO held_open (herd, source, source_id, held, waits_for) VALUES (@herd, @Source, @SourceId, @held, @waitsFor)",
        new { herd, draft.Source, draft.SourceId, held, waitsFor = WaitsFor(draft) });

    /// <summary>Ends what is open of an identity; nothing happens when nothing is.</summary>
    /// <param name="unit">The request.</param>
    /// <param name="herd">The herd.</param>
    /// <param name="source">Who sent it.</param>
    /// <param name="sourceId">The sender's id.</param>
    /// <param name="recorded">When.</param>
    /// <param name="ending">One of <see cref="HeldEnding"/>.</param>
    /// <param name="by">Who ends it.</param>
    /// <param name="append">Appends the fact it becomes.</param>
    /// <param name="note">Why.</param>
    public static void EndOpen(
        WriteUnit unit,
        long herd,
        string source,
        string sourceId,
        Instant recorded,
        string ending,
        string by,
        Func<FactId>? append = null,
        string note = "")
    {
        var statement = unit.Connection.Prepared("DELETE FROM held_open WHERE herd = ?1 AND source = ?2 AND source_id = ?3 RETURNING held")
            .Bind(1, herd).Bind(2, source).Bind(3, sourceId);
        if (!statement.Step())
        {
            return;
        }

        var held = statement.Long(0);
        statement.Run();
        var fact = append?.Invoke();
        var sequence = unit.Change(herd, recorded, ChangeKind.HeldEnd, animal: null, held);
        InsertEnd(unit, herd, held, sequence, new HeldEnd(ending, by, note, recorded, fact));
    }

    /// <summary>Writes the row of an end.</summary>
    public static void InsertEnd(WriteUnit unit, long herd, long held, long sequence, HeldEnd end) => unit.Connection.Sqlite.Execute(
        """
        INSERT INTO held_end (herd, held, sequence, recorded, ending, ended_by, note, fact)
        VALUES (@herd, @held, @sequence, @at, @Ending, @By, @Note, @fact)
        """,
        new { herd, held, sequence, at = Ticks.Of(end.At), end.Ending, end.By, end.Note, fact = end.Fact?.Value });

    public static IReadOnlyList<HeldRow> WaitingFor(WriteUnit unit, long herd, string animal) => unit.Connection.Sqlite
        .Query<HeldRow>(
            $"{HeldRow.Select} WHERE herd = @herd AND held IN (SELECT held FROM held_open WHERE herd = @herd AND waits_for = @animal) ORDER BY sequence",
            new { herd, animal })
        .AsList();

    private static long Insert(WriteUnit unit, long herd, HeldDraft draft, HeldRow row, long revision, Instant recorded)
    {
        var held = FreeId(unit, herd, draft, revision);
        Insert(unit, herd, held, row, revision, recorded, unit.Change(herd, recorded, ChangeKind.Held, animal: null, held));
        return held;
    }

    /// <summary>Writes the row of a held result whose change is on record.</summary>
    public static long Insert(WriteUnit unit, long herd, HeldDraft draft, HeldRow row, long revision, Instant recorded, long sequence)
    {
        var held = FreeId(unit, herd, draft, revision);
        Insert(unit, herd, held, row, revision, recorded, sequence);
        return held;
    }

    private static long FreeId(WriteUnit unit, long herd, HeldDraft draft, long revision)
    {
        byte salt = 0;
        long held;
        do
        {
            held = FactIdentity.Of(IdentityPrefix + draft.Source, draft.SourceId, revision, salt++).Value;
        }
        while (HeldRows.Exists(unit.Connection, herd, held));

        return held;
    }

    private static void Insert(WriteUnit unit, long herd, long held, HeldRow row, long revision, Instant recorded, long sequence) =>
        unit.Connection.Sqlite.Execute(
            """
            INSERT INTO held (herd, held, sequence, recorded, source, source_id, revision, animal, tube, reason, may_mean, content, draft)
            VALUES (@herd, @held, @sequence, @at, @Source, @SourceId, @revision, @Animal, @Tube, @Reason, @MayMean, @Content, @Draft)
            """,
            new
            {
                herd,
                held,
                sequence,
                at = Ticks.Of(recorded),
                row.Source,
                row.SourceId,
                revision,
                row.Animal,
                row.Tube,
                row.Reason,
                row.MayMean,
                row.Content,
                row.Draft,
            });
}
