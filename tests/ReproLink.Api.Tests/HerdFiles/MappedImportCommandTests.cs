using ReproLink.Api.Tests.Commands;

namespace ReproLink.Api.Tests.HerdFiles;

/// <summary>A sender's own file through the command line.</summary>
public sealed class MappedImportCommandTests : IDisposable
{
    private const string Mapping = """
        {"columns":{"animal":"Cow","date":"Day"},"eventColumn":"What",
         "facts":[{"events":["Calved"],"kind":"calving"},{"events":["Served"],"kind":"insemination"}],"leaveOut":["Moved"]}
        """;

    private const string Lines = "Cow,Day,What,Weight\n7,2026-06-01,Calved,600\n7,2026-09-01,Served,\n7,2026-09-02,Moved,\n8,2026-02-30,Calved,\n9,2026-06-03,Scanned,\n";

    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-mapped-").FullName;

    private string Database => Path.Combine(_folder, "herds.db");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task A_dry_run_says_what_the_real_one_does_and_leaves_nothing_behind()
    {
        var dry = await Import("--dry-run");
        Assert.False(File.Exists(Database));
        var real = await Import();
        var again = await Import("--dry-run");

        Assert.StartsWith("cows.csv", dry.Output, StringComparison.Ordinal);
        Assert.Contains("nothing was stored", dry.Output, StringComparison.Ordinal);
        Assert.Contains("Facts: 2 accepted, 0 replaced, 0 duplicate. Lines rejected: 2.", dry.Output, StringComparison.Ordinal);
        Assert.Contains("Facts: 2 accepted, 0 replaced, 0 duplicate. Lines rejected: 2.", real.Output, StringComparison.Ordinal);
        Assert.Contains("Facts: 0 accepted, 0 replaced, 2 duplicate. Lines rejected: 2.", again.Output, StringComparison.Ordinal);
        foreach (var run in new[] { dry, real, again })
        {
            Assert.Equal(1, run.Code);
            Assert.Contains("'Weight'", run.Output, StringComparison.Ordinal);
            Assert.Contains("line 4: The mapping leaves out 'Moved'.", run.Output, StringComparison.Ordinal);
            Assert.Contains("line 5: date is 2026-02-30", run.Output, StringComparison.Ordinal);
            Assert.Contains("line 6: What is Scanned; allowed: a word under 'events'", run.Output, StringComparison.Ordinal);
        }

        await using var store = Records.Store.Open(Database);
        Assert.Equal((1L, 2L), store.Herds.Counts(Assert.Single(store.Herds.All())));
    }

    [Fact]
    public async Task A_mapping_that_is_wrong_is_told_field_by_field()
    {
        var run = await Import(Mapping.Replace("calving", "calve", StringComparison.Ordinal));

        Assert.Equal(2, run.Code);
        Assert.Contains("facts/0/kind", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Database));
    }

    private Task<CommandRun> Import(params string[] more) => more is [{ } mapping] && mapping.StartsWith('{') ? Run(mapping) : Run(Mapping, more);

    private async Task<CommandRun> Run(string mapping, params string[] more)
    {
        var (file, map) = (Path.Combine(_folder, "cows.csv"), Path.Combine(_folder, "mapping.json"));
        await File.WriteAllTextAsync(file, Lines);
        await File.WriteAllTextAsync(map, mapping);
        return await CommandRun.Of(
            ["import", file, "--mapping", map, "--source", "book", "--database", Database, "--time-zone", "Europe/London", "--location", "local/one", .. more]);
    }
}
