using ReproLink.Api.Tests.Commands;

namespace ReproLink.Api.Tests.HerdFiles;

/// <summary>A herd taken out and put back on the command line.</summary>
public sealed class ZipCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-zips-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task A_herd_goes_out_and_comes_back_into_another_database()
    {
        await File.WriteAllTextAsync(At("facts.csv"), "sourceId,kind,animal,date\nc-1,calving,7,2026-07-01\nc-2,calving,8,2026-07-02\n");
        await CommandRun.Of("import", At("facts.csv"), "--database", At("one.db"), "--location", "local/one", "--name", "One", "--time-zone", "Europe/London");

        var exported = await CommandRun.Of("export", At("one.zip"), "--location", "local/one", "--database", At("one.db"));
        var again = await CommandRun.Of("export", At("one.zip"), "--location", "local/one", "--database", At("one.db"));
        var nowhere = await CommandRun.Of("export", At("two.zip"), "--location", "local/two", "--database", At("one.db"));
        var put = await CommandRun.Of("import", At("one.zip"), "--format", "herd-zip", "--location", "local/back", "--database", At("two.db"));
        var twice = await CommandRun.Of("import", At("one.zip"), "--format", "herd-zip", "--location", "local/back", "--database", At("two.db"));
        var bad = await CommandRun.Of("import", At("facts.csv"), "--format", "herd-zip", "--location", "local/bad", "--database", At("two.db"));

        Assert.Equal((0, 1, 2, 0, 1, 1), (exported.Code, again.Code, nowhere.Code, put.Code, twice.Code, bad.Code));
        Assert.Contains("never overwrites", again.Error, StringComparison.Ordinal);
        Assert.Contains("Put back: 2 facts", put.Output, StringComparison.Ordinal);
        Assert.Contains("has records already", twice.Error, StringComparison.Ordinal);
        await using var store = Records.Store.Open(At("two.db"));
        var herd = Assert.Single(store.Herds.All());
        Assert.Equal(("back", "One", "Europe/London"), (herd.Location.Id, herd.Name, herd.TimeZone));
        Assert.Equal((2L, 2L), store.Herds.Counts(herd));
        Assert.Empty(Directory.GetFiles(_folder, "*.partial"));
    }

    private string At(string name) => Path.Combine(_folder, name);
}
