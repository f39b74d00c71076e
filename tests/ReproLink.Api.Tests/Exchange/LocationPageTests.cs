using System.Text.Json.Nodes;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Exchange;

/// <summary>The locations of a key, page by page.</summary>
public sealed class LocationPageTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const int Locations = 105;

    [Fact]
    public async Task More_locations_than_a_page_are_each_found_once_by_following_next()
    {
        var reader = await ReaderOf("many", Locations);
        var walked = await Walk(reader, "//locations");
        var first = walked[0];
        Assert.Equal((100, 100), ((int)first["view"]!["pageSize"]!, first["member"]!.AsArray().Count));
        Assert.StartsWith("http://localhost/locations?cursor=", (string?)first["view"]!["next"], StringComparison.Ordinal);
        Assert.Equal(Names("many", Locations), walked.SelectMany(Ids).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("//locations?page-size=10", 3)]
    [InlineData("//locations?page-size=10&meta-modified-from=2026-01-01T00:00:00Z", 3)]
    [InlineData("//locations?page-size=25", 1)]
    [InlineData("//locations?animal-scheme=us.bovine&unknown=1", 1)]
    [InlineData("//locations?meta-modified-from=2999-01-01T00:00:00Z", 1)]
    public async Task A_page_holds_at_most_what_was_asked_for_and_the_last_has_no_next(string path, int pages)
    {
        var reader = await ReaderOf("some", 25);
        var walked = await Walk(reader, path);
        Assert.Equal(pages, walked.Count);
        Assert.All(walked, page => Assert.InRange(page["member"]!.AsArray().Count, 0, (int)page["view"]!["pageSize"]!));
        Assert.Equal(path.Contains("2999", StringComparison.Ordinal) ? [] : Names("some", 25), walked.SelectMany(Ids).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("page-size=0", "page-size")]
    [InlineData("page-size=1001", "page-size")]
    [InlineData("cursor=elsewhere", "cursor")]
    [InlineData("meta-modified-from=2026-01-01", "meta-modified-from")]
    public async Task What_is_wrong_with_the_page_asked_for_is_named(string query, string parameter)
    {
        var reader = await ReaderOf("none", 1);
        var errors = await AdeHerd.Refused(reader.Get($"//locations?{query}"), 400);
        Assert.Equal(parameter, (string?)Assert.Single(errors)!["instance"]);
    }

    /// <summary>A key bound to so many locations, among all the others of the service.</summary>
    private async Task<HerdClient> ReaderOf(string prefix, int count)
    {
        var manager = host.CreateClient();
        foreach (var name in Names(prefix, count))
        {
            await new HerdClient(manager, $"/locations/paged/{name}").Put("", """{"name":"North Ridge","timeZone":"America/Chicago"}""");
        }

        var locations = Names(prefix, count).Select(name => new LocationKey("paged", name)).ToArray();
        var (secret, _) = await host.Store.Keys.Create($"{prefix}-{Guid.NewGuid():N}", KeyRole.Reader, locations, Instant.FromUtc(2026, 10, 1, 0, 0));
        return new HerdClient(manager, "/locations").With(host, secret);
    }

    /// <summary>Every page, as `next` leads from one to the other.</summary>
    private static async Task<IReadOnlyList<JsonNode>> Walk(HerdClient reader, string path)
    {
        var pages = new List<JsonNode>();
        for (string? next = path; next is not null; next = Next(pages[^1]))
        {
            pages.Add(await Page(reader, next));
        }

        return pages;
    }

    private static async Task<JsonNode> Page(HerdClient reader, string path)
    {
        var answer = await reader.Get(path);
        Assert.True((int)answer.Status == 200, answer.Text);
        AdeSchemas.Page(answer.Json!, "icarLocationCollection", "icarLocationResource");
        return answer.Json!;
    }

    private static string? Next(JsonNode page) => page["view"]!["next"] is { } next ? "/" + new Uri((string)next!).PathAndQuery : null;

    private static IEnumerable<string> Ids(JsonNode page) => page["member"]!.AsArray().Select(l => (string)l!["identifier"]!["id"]!);

    private static string[] Names(string prefix, int count) => [.. Enumerable.Range(0, count).Select(i => $"{prefix}-{i:000}")];
}
