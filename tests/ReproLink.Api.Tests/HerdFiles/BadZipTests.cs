using System.Net;
using System.Text;
using ReproLink.Api.Archives;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.HerdFiles;

/// <summary>Whatever is sent as a zip: a problem that says what is wrong, nothing stored, never a failure of the service.</summary>
public sealed class BadZipTests(BadZipTests.Source source) : IClassFixture<BadZipTests.Source>
{
    public static TheoryData<string, string, string, string> Edits => new()
    {
        // file, text, becomes, what the answer names
        { "facts.csv", "order,factId", "order,fact", "facts.csv" },
        { "facts.csv", ",pen,", ",", "facts.csv" },
        { "facts.csv", "recordedAt,", "recordedAt,colour,", "facts.csv" },
        { "facts.csv", ",calving,", ",calve,", "kind" },
        { "facts.csv", ",2026-06-01,", ",2026-06-31,", "date" },
        { "facts.csv", ",2026-06-01,", ",2027-06-01,", "date" },
        { "facts.csv", ",2026-06-01,", ",01/06/2026,", "date" },
        { "facts.csv", "2026-10-05T12:00:00Z", "2026-10-05T12:00:01Z", "later than now" },
        { "facts.csv", "3,f_", "one,f_", "order" },
        { "facts.csv", ",c-1,", ",c-one,", "its own would be" },
        { "facts.csv", ",s-1,", ",c-1,", "stand at once" },
        { "facts.csv", "\r\n4,f_", "\r\n3,f_", "place 3" },
        { "facts.csv", "order,", "\"order,", "facts.csv" },
        { "results.csv", ",open,", ",maybe,", "outcome" },
        { "results.csv", ",blood,", ",telepathy,", "method" },
        { "held-results.csv", "h_", "x_", "held result" },
        { "rounds.csv", ",R1,", ",round one,", "round" },
        { "tubes.csv", "R1-001", "R1-002", "R1-002" },
        { "tube-events.csv", "R1-001", "R1-009", "R1-009" },
        { "tube-events.csv", ",drawn,", ",spilt,", "state" },
        { "dispatches.csv", ",R1,1,", ",R1,2,", "dispatch" },
        { "received-lines.csv", "\r\n1,1,", "\r\n2,1,", "one place" },
        { "received-lines.csv", ",held,", ",lost,", "decision" },
        { "herd.json", "America/Chicago", "Chicago", "timeZone" },
        { "herd.json", "{\"name\"", "[\"name\"", "herd.json" },
        { "programmes.json", "\"state\":\"saved\"", "\"state\":\"final\"", "state" },
        { "programmes.json", "\"approvals\":", "\"sign-offs\":", "sign-offs" },
        { "programmes.json", "\"order\":", "\"place\":", "place" },
        { "protocols.json", "\"own\":[", "\"own\":[{\"order\":1,\"id\":\"x\",\"definition\":\"{}\",\"addedBy\":\"a\",\"addedAt\":\"2026-10-01T00:00:00Z\"}", "definition" },
        { "mappings.json", "\"results\":[", "\"results\":[{\"sender\":\"a\",\"version\":1,\"savedBy\":\"b\",\"savedAt\":\"2026-10-01T00:00:00Z\",\"mapping\":{\"columns\":{}}}", "columns" },
    };

    [Theory]
    [MemberData(nameof(Edits))]
    public async Task A_file_that_says_something_else_is_refused_by_name(string file, string text, string becomes, string named)
    {
        var at = 0;
        var zip = ZipFiles.Changed(source.Zip, file, all =>
        {
            at = all.IndexOf(text, StringComparison.Ordinal);
            Assert.True(at >= 0, $"{text} is not in {all}");
            return all[..at] + becomes + all[(at + text.Length)..];
        });
        await Refused(zip, HttpStatusCode.BadRequest, named);
    }

    [Fact]
    public async Task A_changed_file_is_seen_by_its_checksum()
    {
        var files = ZipFiles.Unpack(source.Zip);
        files[ArchiveFiles.Facts] = [.. files[ArchiveFiles.Facts], .. "\r\n"u8];
        await Refused(ZipFiles.PackAsIs(files.Select(f => (f.Key, f.Value))), HttpStatusCode.BadRequest, "facts.csv is not as it was exported");
    }

    [Theory]
    [InlineData("../../etc/passwd")]
    [InlineData("/tmp/facts.csv")]
    [InlineData("facts.csv/../x")]
    [InlineData("notes.txt")]
    [InlineData("FACTS.CSV")]
    public async Task A_file_that_is_none_of_an_export_is_refused(string name) =>
        await Refused(ZipFiles.PackAsIs([.. ZipFiles.Unpack(source.Zip).Select(f => (f.Key, f.Value)), (name, [1])]), HttpStatusCode.BadRequest, "no file of an export");

    [Fact]
    public async Task A_missing_file_and_one_that_is_there_twice_are_refused()
    {
        var files = ZipFiles.Unpack(source.Zip).Select(f => (f.Key, f.Value)).ToList();
        await Refused(ZipFiles.PackAsIs(files.Where(f => f.Key != ArchiveFiles.Held)), HttpStatusCode.BadRequest, "held-results.csv is missing");
        await Refused(ZipFiles.PackAsIs([.. files, (ArchiveFiles.Facts, "x"u8.ToArray())]), HttpStatusCode.BadRequest, "there twice");
    }

    [Fact]
    public async Task What_unpacks_to_more_than_is_allowed_is_not_unpacked()
    {
        var files = ZipFiles.Unpack(source.Zip);
        files[ArchiveFiles.Herd] = Encoding.ASCII.GetBytes(new string(' ', (int)ArchiveFiles.MostJsonBytes + 1));
        var zip = ZipFiles.Pack(files);
        Assert.True(zip.Length < 1_000_000);
        await Refused(zip, HttpStatusCode.BadRequest, "unpacks to too much");
    }

    [Fact]
    public async Task No_zip_at_all_is_refused()
    {
        await Refused([], HttpStatusCode.BadRequest, "not a whole zip");
        await Refused("PK and nothing more"u8.ToArray(), HttpStatusCode.BadRequest, "not a whole zip");
        await Refused(source.Zip[..(source.Zip.Length / 2)], HttpStatusCode.BadRequest, "not a whole zip");
        await Refused(ZipFiles.PackAsIs([]), HttpStatusCode.BadRequest, "missing");
        await Refused(source.Zip, HttpStatusCode.UnsupportedMediaType, "application/zip", "text/csv");
        var herd = await HerdClient.Create(source);
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Import(source, source.Zip, "?approvals=all")).Status);
    }

    [Fact]
    public async Task Bytes_flipped_at_random_never_fail_the_service_and_never_store_half()
    {
        var random = new Random(20261005);
        for (var i = 0; i < 150; i++)
        {
            var zip = source.Zip.ToArray();
            for (var flips = random.Next(1, 4); flips > 0; flips--)
            {
                zip[random.Next(zip.Length)] = (byte)random.Next(256);
            }

            var herd = await HerdClient.Create(source);
            var answer = await herd.Import(source, zip);
            Assert.True(answer.Status is HttpStatusCode.OK or HttpStatusCode.BadRequest, answer.Text);
            var facts = (await herd.Get("/facts"))["facts"].AsArray().Count;
            Assert.Equal(answer.Status == HttpStatusCode.OK, facts > 0);
        }
    }

    [Fact]
    public async Task Into_a_location_with_records_nothing_is_put()
    {
        var herd = await HerdClient.Create(source);
        await herd.Accept("""[{"sourceId":"x","kind":"oestrus","animal":"9","date":"2026-10-01"}]""");
        var answer = await herd.Import(source, source.Zip);
        Assert.Equal(HttpStatusCode.Conflict, answer.Status);
        Assert.Equal("/problems/herd-not-empty", (string?)answer["type"]);
        Assert.Single((await herd.Get("/facts"))["facts"].AsArray());
        var twice = await HerdClient.Create(source);
        Assert.Equal(HttpStatusCode.OK, (await twice.Import(source, source.Zip)).Status);
        Assert.Equal(HttpStatusCode.Conflict, (await twice.Import(source, source.Zip)).Status);
    }

    private async Task Refused(byte[] zip, HttpStatusCode status, string named, string mediaType = "application/zip")
    {
        var herd = await HerdClient.Create(source);
        var answer = await herd.Import(source, zip, mediaType: mediaType);
        Assert.True(answer.Status == status, answer.Text);
        Assert.Equal("application/problem+json", answer.MediaType);
        Assert.Contains(named, answer.Text, StringComparison.Ordinal);
        Assert.Empty((await herd.Get("/facts"))["facts"].AsArray());
        Assert.Empty((await herd.Get("/received"))["lines"].AsArray());
        Assert.Equal("""{"versions":[]""", (await herd.Get("/programme/versions")).Text[..14]);
        Assert.Equal("North Ridge", (string?)(await herd.Get(""))["name"]);
    }

    /// <summary>A service and an exported herd with a little of everything.</summary>
    public sealed class Source : ApiHostFixture, IAsyncLifetime
    {
        public byte[] Zip { get; private set; } = [];

        public async Task InitializeAsync()
        {
            var herd = await HerdClient.Create(this);
            await herd.Put("/programme", """{"inForceFrom":"2026-01-01"}""");
            await herd.Post("/programme/approvals", """{"version":1}""");
            await herd.Accept("""
                [{"sourceId":"c-1","kind":"calving","animal":"1","date":"2026-06-01"},{"sourceId":"s-1","kind":"insemination","animal":"1","date":"2026-09-07"}]
                """);
            await herd.Post("/sampling-rounds", """{"date":"2026-10-05","animals":["1"]}""");
            await herd.Put("/sampling-rounds/R1/tubes/R1-001", """{"state":"drawn"}""");
            await herd.Post("/sampling-rounds/R1/dispatch", "{}");
            await herd.Post("/test-results", """[{"sourceId":"r","animal":"2","sampled":"2026-10-05","method":"blood","outcome":"open"},{"sourceId":"q","animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open"}]""");
            Zip = await herd.Export(this);
        }

        async Task IAsyncLifetime.DisposeAsync() => await DisposeAsync();
    }
}
