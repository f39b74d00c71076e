using System.Reflection;
using System.Text.RegularExpressions;
using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Tests.Architecture;

/// <summary>What the layers may use. Most fences fail the build already; these say so in a test.</summary>
public sealed partial class FenceTests
{
    [Fact]
    public void The_calendar_references_only_the_framework_and_NodaTime()
    {
        var references = typeof(Day).Assembly.GetReferencedAssemblies().Select(a => a.Name!).ToList();
        Assert.Contains("NodaTime", references);
        Assert.All(references, name => Assert.True(name == "NodaTime" || name == "System" || name.StartsWith("System.", StringComparison.Ordinal), name));
    }

    [Fact]
    public void Only_the_calendar_counts_days()
    {
        var outside = Repository.SourceFiles("src").Where(f => !IsIn(f, "ReproLink.Calendar"));
        Assert.Empty(outside.Where(f => DateArithmetic().IsMatch(File.ReadAllText(f))).Select(Path.GetFileName));
    }

    [Fact]
    public void Only_the_records_speak_SQL()
    {
        var outside = Repository.SourceFiles("src").Where(f => !IsIn(f, "ReproLink.Records"));
        Assert.Empty(outside.Where(f => Sql().IsMatch(File.ReadAllText(f))).Select(Path.GetFileName));
    }

    [Fact]
    public void The_calendar_reads_no_clock_no_file_and_no_random_number()
    {
        Assert.Empty(Repository.SourceFiles("src/ReproLink.Calendar").Where(f => Impure().IsMatch(File.ReadAllText(f))).Select(Path.GetFileName));
    }

    [Theory]
    [InlineData("T:NodaTime.IClock")]
    [InlineData("T:NodaTime.SystemClock")]
    [InlineData("P:System.DateTime.Now")]
    [InlineData("P:System.DateTime.UtcNow")]
    [InlineData("P:System.DateTime.Today")]
    [InlineData("P:System.DateTimeOffset.Now")]
    [InlineData("P:System.DateTimeOffset.UtcNow")]
    [InlineData("T:System.TimeProvider")]
    [InlineData("T:System.Random")]
    [InlineData("M:System.Guid.NewGuid")]
    public void The_banned_symbols_of_the_calendar_name_every_clock(string symbol) =>
        Assert.Contains(File.ReadAllLines(Path.Combine(Repository.Root(), "src/ReproLink.Calendar/BannedSymbols.txt")),
            l => l.StartsWith(symbol + ";", StringComparison.Ordinal));

    [Fact]
    public void The_public_engine_has_no_settable_state()
    {
        var settable = typeof(Day).Assembly.GetExportedTypes().SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public))
            .Where(f => !f.IsInitOnly && !f.IsLiteral).Select(f => $"{f.DeclaringType!.Name}.{f.Name}");
        Assert.Empty(settable);
    }

    private static bool IsIn(string file, string project) => file.Contains($"{Path.DirectorySeparatorChar}{project}{Path.DirectorySeparatorChar}", StringComparison.Ordinal);

    [GeneratedRegex(@"\.(PlusDays|PlusWeeks|PlusMonths|PlusYears|PlusHours)\(|Period\.(DaysBetween|Between)\(")]
    private static partial Regex DateArithmetic();

    [GeneratedRegex(@"\b(SELECT\s.+\sFROM|INSERT\s+INTO|DELETE\s+FROM|UPDATE\s+\w+\s+SET)\b|Microsoft\.Data\.Sqlite|using Dapper", RegexOptions.Singleline)]
    private static partial Regex Sql();

    [GeneratedRegex(@"SystemClock|DateTime\.(Now|UtcNow|Today)|Stopwatch|Guid\.NewGuid|new Random|File\.(Read|Write|Open)")]
    private static partial Regex Impure();
}
