using Dapper;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <summary>Reads rounds.</summary>
internal static class RoundRows
{
    public static Round? Find(Connection connection, long herd, int round)
    {
        if (connection.Sqlite.QuerySingleOrDefault<RoundRow>(
            $"{RoundRow.Select} WHERE herd = @herd AND round = @round", new { herd, round }) is not { } row)
        {
            return null;
        }

        var tubes = Tubes(connection, $"{TubeRow.Select} WHERE herd = @herd AND round = @round ORDER BY number",
            $"{TubeEventRow.Select} WHERE herd = @herd AND round = @round ORDER BY number, sequence", new { herd, round });
        var dispatches = connection.Sqlite.Query<DispatchRow>(
            $"{DispatchRow.Select} WHERE herd = @herd AND round = @round ORDER BY dispatch", new { herd, round });
        return row.ToRound(tubes, [.. dispatches.Select(d => d.ToDispatch())]);
    }

    /// <summary>Rounds, the latest first.</summary>
    public static IReadOnlyList<Round> List(Connection connection, long herd, long before, int limit) =>
        [.. connection.Sqlite.Query<int>(
                "SELECT round FROM round WHERE herd = @herd AND round < @before ORDER BY round DESC LIMIT @limit", new { herd, before, limit })
            .AsList()
            .Select(round => Find(connection, herd, round)!)];

    /// <summary>The rounds of a day.</summary>
    public static IReadOnlyList<Round> On(Connection connection, long herd, Day day) =>
        [.. connection.Sqlite.Query<int>("SELECT round FROM round WHERE herd = @herd AND day = @day ORDER BY round", new { herd, day = day.Number })
            .AsList()
            .Select(round => Find(connection, herd, round)!)];

    /// <summary>The animals with a tube in a round of that day that was not given up.</summary>
    public static IReadOnlySet<string> PlannedOn(Connection connection, long herd, Day day) => On(connection, herd, day)
        .SelectMany(round => round.Tubes)
        .Where(tube => tube.Standing.HasBlood || tube.Standing.State == TubeState.Planned)
        .Select(tube => tube.Animal)
        .ToHashSet(StringComparer.Ordinal);

    private static List<Tube> Tubes(Connection connection, string tubes, string events, object of)
    {
        var happened = connection.Sqlite.Query<TubeEventRow>(events, of).ToLookup(e => (e.Round, e.Number));
        return [.. connection.Sqlite.Query<TubeRow>(tubes, of).Select(row => row.ToTube(happened[(row.Round, row.Number)]))];
    }
}
