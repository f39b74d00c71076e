using Dapper;

namespace ReproLink.Records;

/// <summary>Process-wide settings of Dapper, made once before the first query.</summary>
internal static class DapperSetup
{
    private static readonly bool Done = Set();

    public static void Ensure() => _ = Done;

    private static bool Set()
    {
        // time_zone fills TimeZone; without it such a column would be dropped in silence.
        DefaultTypeMap.MatchNamesWithUnderscores = true;
        return true;
    }
}
