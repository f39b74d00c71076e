using System.Net;
using System.Text.Json.Nodes;
using NodaTime;
using ReproLink.Api.Archives;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.HerdFiles;

/// <summary>No zip releases prostaglandin that no veterinarian's key answers for.</summary>
public sealed class ImportedApprovalTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private static int _made;

    [Fact]
    public async Task Put_back_by_a_manager_an_approved_programme_waits_for_a_veterinarian()
    {
        var zip = await (await Firm()).Export(host);
        var herd = await HerdClient.Create(host);

        var answer = await herd.Import(host, zip, key: await Key(KeyRole.Manager));

        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        Assert.False((bool)answer["approvals"]["restored"]!);
        Assert.Equal("local", (string?)answer["approvals"]["versions"]![0]!["approvedBy"]);
        Assert.DoesNotContain("firm", await Pgf(herd));
        Assert.Contains("awaiting-approval", await Pgf(herd));
        Assert.Empty((await herd.Get("/programme/versions"))["versions"][0]!["approvals"]!.AsArray());

        var approved = await herd.With(host, await Key(KeyRole.Veterinarian)).Post("/programme/approvals", """{"version":1}""");
        Assert.Equal(HttpStatusCode.Created, approved.Status);
        Assert.Contains("firm", await Pgf(herd));
    }

    [Fact]
    public async Task A_manager_who_asks_for_the_approvals_is_refused_and_nothing_is_stored()
    {
        var zip = await (await Firm()).Export(host);
        var herd = await HerdClient.Create(host);

        var answer = await herd.Import(host, zip, "?approvals=restore", await Key(KeyRole.Manager));

        Assert.Equal(HttpStatusCode.Forbidden, answer.Status);
        Assert.Contains("veterinarian", (string?)answer["detail"], StringComparison.Ordinal);
        Assert.Empty((await herd.Get("/facts"))["facts"].AsArray());
    }

    [Fact]
    public async Task A_forged_approval_releases_nothing()
    {
        var source = await Firm(approve: false);
        Assert.DoesNotContain("firm", await Pgf(source));
        var forged = ZipFiles.Changed(await source.Export(host), ArchiveFiles.Programmes, text =>
        {
            var json = JsonNode.Parse(text)!.AsObject();
            json["approvals"] = JsonNode.Parse("""[{"order":900,"version":1,"approvedBy":"Dr Hale","approvedAt":"2026-10-05T12:00:00Z"}]""");
            return json.ToJsonString();
        });
        var herd = await HerdClient.Create(host);

        var answer = await herd.Import(host, forged, key: await Key(KeyRole.Manager));

        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        Assert.DoesNotContain("firm", await Pgf(herd));
    }

    [Fact]
    public async Task A_veterinarian_answers_for_the_approvals_by_name_and_only_when_asked()
    {
        var zip = await (await Firm()).Export(host);
        var (left, restored) = (await HerdClient.Create(host), await HerdClient.Create(host));

        await left.Import(host, zip, key: await Key(KeyRole.Veterinarian));
        var answer = await restored.Import(host, zip, "?approvals=restore", await Key(KeyRole.Veterinarian, "Dr Hale"));

        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        Assert.DoesNotContain("firm", await Pgf(left));
        Assert.Contains("firm", await Pgf(restored));
        Assert.Equal("local; put back by Dr Hale", (string?)(await restored.Get("/programme/versions"))["versions"][0]!["approvals"]![0]!["approvedBy"]);
    }

    [Theory]
    [InlineData(KeyRole.Exchange)]
    [InlineData(KeyRole.Reader)]
    public async Task Other_roles_neither_take_a_herd_out_nor_put_one_back(KeyRole role)
    {
        var zip = await (await Firm()).Export(host);
        var herd = await HerdClient.Create(host);
        var key = await Key(role);
        Assert.Equal(HttpStatusCode.Forbidden, (await herd.Import(host, zip, key: key)).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await herd.With(host, key).Get("/export")).Status);
    }

    [Theory]
    [InlineData("minDaysPostService\":28", "minDaysPostService\":20", "below-floor")]
    public async Task A_programme_that_undercuts_a_floor_does_not_come_in_by_a_zip(string written, string changed, string problem)
    {
        var zip = ZipFiles.Changed(await (await Firm()).Export(host), ArchiveFiles.Programmes, t => t.Replace(written, changed, StringComparison.Ordinal));
        var herd = await HerdClient.Create(host);
        var answer = await herd.Import(host, zip);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("/problems/" + problem, (string?)answer["errors"][0]!["type"]);
        Assert.Equal("/programmes.json/versions/0/programme/test/minDaysPostService", (string?)answer["errors"][0]!["field"]);
    }

    private async Task<string> Key(KeyRole role, string? name = null) =>
        (await host.Store.Keys.Create(name ?? $"zip-{Interlocked.Increment(ref _made)}", role, null, Instant.FromUtc(2026, 10, 1, 0, 0))).Secret;

    /// <summary>A herd with a cow whose prostaglandin is firm, if anybody approved of it.</summary>
    private async Task<HerdClient> Firm(bool approve = true)
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", """{"inForceFrom":"2026-01-01"}""");
        if (approve)
        {
            await herd.Post("/programme/approvals", """{"version":1}""");
        }

        await herd.Accept("""
            [{"sourceId":"a","kind":"animal","animal":"1","parity":2},{"sourceId":"c","kind":"calving","animal":"1","date":"2026-06-01"},
             {"sourceId":"s","kind":"insemination","animal":"1","date":"2026-09-07"}]
            """);
        var result = await herd.Post("/test-results", """[{"sourceId":"r","animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open"}]""");
        Assert.Equal("open", (string?)result.Results[0]!["decides"]);
        if (approve)
        {
            Assert.Contains("firm", await Pgf(herd));
        }

        return herd;
    }

    private static async Task<string[]> Pgf(HerdClient herd)
    {
        var steps = (await herd.Get("/work-calendar?from=2026-10-05&to=2026-11-15"))["items"].AsArray().Where(i => (string?)i!["step"] is "pgf" or "inseminate").ToArray();
        Assert.NotEmpty(steps);
        return [.. steps.Select(s => (string)s!["state"]!)];
    }
}
