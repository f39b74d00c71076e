namespace ReproLink.Api.Tests.Commands;

/// <summary>Every command as typed, with its exit code: 0 done, 1 failed or something rejected, 2 not understood.</summary>
public sealed class CommandLineTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-commands-").FullName;

    private string Database => Path.Combine(_folder, "herds.db");

    [Theory]
    [InlineData("frobnicate", "There is no command 'frobnicate'")]
    [InlineData("--frob=1", "There is no option '--frob'")]
    [InlineData("serve --frob", "There is no option '--frob'")]
    [InlineData("demo --frob", "'--frob' is no option")]
    [InlineData("demo --urls http://0.0.0.0:5080", "listens on the machine itself only")]
    [InlineData("demo --clock yesterday", "write an instant")]
    [InlineData("serve --clock 2026-10-05T12:00:00Z", "in the Testing environment and in the demo only")]
    [InlineData("serve --Limits:BodyBytes=5", "--Limits:BodyBytes 5: a whole number from 1000 to 1000000000.")]
    [InlineData("serve --Limits:RequestsPerMinute many", "--Limits:RequestsPerMinute many: a whole number from 0")]
    [InlineData("import nowhere.csv --location a/b", "nowhere.csv")]
    [InlineData("import nowhere.csv", "--location")]
    [InlineData("import nowhere.csv --location ab", "write scheme/id")]
    [InlineData("backup copy.db --database nowhere.db", "There is no database 'nowhere.db'")]
    [InlineData("keys create x --role owner", "owner")]
    public async Task What_is_not_understood_is_said_and_nothing_is_done(string typed, string said)
    {
        var run = await CommandRun.Of(typed.Split(' '));

        Assert.Contains(said, run.Error, StringComparison.Ordinal);
        Assert.Equal(2, run.Code);
    }

    [Theory]
    [InlineData("")]
    [InlineData("serve")]
    [InlineData("demo")]
    [InlineData("import")]
    [InlineData("keys")]
    [InlineData("backup")]
    public async Task Help_is_there_for_every_command(string command)
    {
        var run = await CommandRun.Of([.. command.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--help"]);

        Assert.Equal(0, run.Code);
        Assert.Contains(command.Length == 0 ? "Commands:" : "Example", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Demo_prints_the_three_first_questions_and_leaves_nothing_behind()
    {
        var run = await CommandRun.Of("demo", "--print-only", "--clock", "2026-10-05T12:00:00Z");

        Assert.Equal(0, run.Code);
        Assert.Contains("/bleed-list?from=2026-10-05&to=2026-10-11", run.Output, StringComparison.Ordinal);
        Assert.Contains("/animals/1042/test-window?on=2026-10-05", run.Output, StringComparison.Ordinal);
        Assert.Contains("/animals/1042/timeline", run.Output, StringComparison.Ordinal);
        // Its own files alone: demos that other tests start come and go meanwhile.
        Assert.Empty(Directory.GetFiles(Path.GetTempPath(), $"reprolink-demo-{run.ProcessId}-*"));
    }

    [Fact]
    public async Task Demo_never_opens_a_real_herd_without_a_key()
    {
        await Import("sourceId,kind,animal,date\nc-1,calving,7,2026-07-01\n");

        var run = await CommandRun.Of("demo", "--print-only", "--database", Database);

        Assert.Equal(2, run.Code);
        Assert.Contains("needs no key", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Import_stores_the_good_lines_and_names_field_value_and_what_is_allowed_of_the_others()
    {
        var run = await Import("sourceId,kind,animal,date\nc-1,calving,7,2026-07-01\nc-2,calving,8,2026-02-30\nc-3,calving\nc-4,calvin,9,2026-07-01\n");

        Assert.Equal(1, run.Code);
        Assert.Contains("1 accepted, 0 replaced, 0 duplicate. Lines rejected: 3.", run.Output, StringComparison.Ordinal);
        Assert.Contains("line 3: date is 2026-02-30; allowed: a date that exists", run.Output, StringComparison.Ordinal);
        Assert.Contains("line 4: the line is c-3,calving; allowed: 4 cells", run.Output, StringComparison.Ordinal);
        Assert.Contains("line 5: kind is calvin; allowed: one of animal", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Import_of_the_same_file_again_stores_nothing_twice()
    {
        const string File = "sourceId,kind,animal,date\nc-1,calving,7,2026-07-01\nc-2,calving,8,2026-07-02\n";
        await Import(File);

        var run = await Import(File);

        Assert.Equal(0, run.Code);
        Assert.Contains("0 accepted, 0 replaced, 2 duplicate", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Import_of_dated_facts_makes_a_location_a_herd_and_answers_every_line()
    {
        var run = await Import("""
            herd,animal,date,fact,detail
            A,A1,2021-01-28,birth,breed-code-66
            A,A1,2023-06-01,calving,parity-1
            B,B1,2023-09-01,insemination,S9
            B,B1,2024-01-01,departure,M
            B,B2,2024-01-01,calving,third
            B,B2,2024-01-01,moved,
            ,B2,2024-01-01,calving,
            """, "--format", "dated-facts-csv", "--location", "fr/*");

        Assert.Equal(1, run.Code);
        // A card for the birth, and another for the parity of the calving.
        Assert.Contains("Facts: 5 accepted", run.Output, StringComparison.Ordinal);
        Assert.Contains("line 6: detail is third; allowed: parity-n", run.Output, StringComparison.Ordinal);
        Assert.Contains("line 7: fact is moved; allowed: birth, insemination", run.Output, StringComparison.Ordinal);
        Assert.Contains("line 8: herd is", run.Output, StringComparison.Ordinal);
        Assert.Contains("fr/B", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_key_is_made_listed_without_its_secret_and_revoked()
    {
        var made = await CommandRun.Of("keys", "create", "herd-app", "--role", "exchange", "--location", "local/one", "--database", Database);
        var listed = await CommandRun.Of("keys", "list", "--database", Database);
        var revoked = await CommandRun.Of("keys", "revoke", "herd-app", "--database", Database);
        var again = await CommandRun.Of("keys", "revoke", "herd-app", "--database", Database);

        Assert.StartsWith("rl_", made.Output, StringComparison.Ordinal);
        Assert.Contains("herd-app\texchange\tlocal/one", listed.Output, StringComparison.Ordinal);
        Assert.DoesNotContain(made.Output.Trim(), listed.Output, StringComparison.Ordinal);
        Assert.Equal((0, 1), (revoked.Code, again.Code));
    }

    [Fact]
    public async Task A_backup_is_a_database_and_never_overwrites()
    {
        await Import("sourceId,kind,animal,date\nc-1,calving,7,2026-07-01\n");
        var copy = Path.Combine(_folder, "copy.db");

        var first = await CommandRun.Of("backup", copy, "--database", Database);
        var second = await CommandRun.Of("backup", copy, "--database", Database);
        await using var restored = Records.Store.Open(copy);

        Assert.Equal((0, 1), (first.Code, second.Code));
        Assert.Equal((1L, 1L), restored.Herds.Counts(Assert.Single(restored.Herds.All())));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private async Task<CommandRun> Import(string text, params string[] more)
    {
        var file = Path.Combine(_folder, "facts.csv");
        await File.WriteAllTextAsync(file, text);
        string[] location = more.Length == 0 ? ["--location", "local/one"] : [];
        return await CommandRun.Of(["import", file, "--database", Database, "--time-zone", "Europe/London", .. location, .. more]);
    }
}
