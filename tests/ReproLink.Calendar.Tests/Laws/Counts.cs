namespace ReproLink.Calendar.Tests.Laws;

/// <summary>How many random animals a law is tried on; REPROLINK_LONG=1 tries a hundred times as many.</summary>
internal static class Counts
{
    public static int Of(int ordinary) =>
        Environment.GetEnvironmentVariable("REPROLINK_LONG") == "1" ? checked(ordinary * 100) : ordinary;

    /// <summary>A seed that reproduces a failure: REPROLINK_SEED; absent = a new one each run.</summary>
    public static string? Seed => Environment.GetEnvironmentVariable("REPROLINK_SEED");
}
