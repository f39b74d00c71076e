using Dapper;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <content>The rows, written here and when a herd is put back.</content>
internal sealed partial class RoundWriter
{
    /// <summary>Writes the row of a round.</summary>
    public static void Insert(Connection connection, long herd, long sequence, KeptRound kept) => connection.Sqlite.Execute(
        """
        INSERT INTO round (herd, round, sequence, recorded, day, name, specimen, created_by)
        VALUES (@herd, @Round, @sequence, @at, @day, @Name, @Specimen, @By)
        """,
        new { herd, kept.Round, sequence, at = Ticks.Of(kept.At), day = kept.Day.Number, kept.Name, kept.Specimen, kept.By });

    /// <summary>Writes the row of a tube.</summary>
    public static void Insert(Connection connection, long herd, long sequence, KeptTube kept) => connection.Prepared(
            """
            INSERT INTO tube (herd, round, number, sequence, recorded, animal, pen, need, days_post_service, redraws, added_by)
            VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)
            """)
        .Bind(1, herd).Bind(2, (long)kept.Round).Bind(3, (long)kept.Number).Bind(4, sequence).Bind(5, Ticks.Of(kept.At)).Bind(6, kept.Plan.Animal)
        .Bind(7, kept.Plan.Pen).Bind(8, kept.Plan.Need).Bind(9, (long?)kept.Plan.DaysPostService).Bind(10, (long?)kept.Redraws).Bind(11, kept.By).Run();

    /// <summary>Writes the row of something that happened to a tube.</summary>
    public static void Insert(Connection connection, long herd, long sequence, KeptTubeEvent kept)
    {
        if (kept.Event is TubeMarked mark)
        {
            var time = mark.Time is { } t ? (int)(t.TickOfDay / NodaConstants.TicksPerMillisecond) : FactEncoder.NoTime;
            Insert(connection, herd, sequence, kept.Round, kept.Number, mark.Recorded, (int)mark.State, mark.Day, time, mark.By, (int?)mark.Reason, null);
        }
        else if (kept.Event is TubeDispatched left)
        {
            Insert(connection, herd, sequence, kept.Round, kept.Number, left.Recorded, TubeEventRow.Left, left.Day, FactEncoder.NoTime, kept.By, null, left.Dispatch);
        }
    }

    private static void Insert(
        Connection connection, long herd, long sequence, int round, int number, Instant at, int state, Day day, int time, string? doneBy, int? reason, int? dispatch) =>
        connection.Prepared(
            """
            INSERT INTO tube_event (herd, round, number, sequence, recorded, state, day, time, done_by, reason, dispatch)
            VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)
            """)
        .Bind(1, herd).Bind(2, (long)round).Bind(3, (long)number).Bind(4, sequence).Bind(5, Ticks.Of(at)).Bind(6, (long)state)
        .Bind(7, (long)day.Number).Bind(8, (long)time).Bind(9, doneBy).Bind(10, (long?)reason).Bind(11, (long?)dispatch).Run();
}
