using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Pages;

/// <summary>
/// A herd with an approved programme whose cow 1042 was served on 3 September: her plan began on 28 September, an open result is
/// in, and prostaglandin is released for the morning of Monday 5 October, when the clock stands.
/// </summary>
internal static class PageHerd
{
    public const string Cow = """
        [{"sourceId":"a-1","kind":"animal","animal":"1042","breed":"Holstein","parity":1,"pen":"4","identifiers":[{"scheme":"us.bovine","id":"840003123456789"}]},
         {"sourceId":"c-1","kind":"calving","animal":"1042","date":"2026-06-01"},
         {"sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-03","time":"08:00"},
         {"sourceId":"t-1","kind":"treatment","animal":"1042","date":"2026-09-28","time":"07:00","agent":"gnrh"}]
        """;

    /// <summary>Her facts: those, and the result.</summary>
    public const int BaseFacts = 5;

    public const string Open = """[{"sourceId":"lab-1","animal":"1042","sampled":"2026-10-01","reported":"2026-10-02T20:00:00Z","method":"blood","outcome":"open"}]""";

    /// <summary>The herd, and the path of its pages.</summary>
    public static async Task<(HerdClient Herd, string Pages)> Create(ApiHostFixture host)
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Cow);
        await herd.Put("/programme", """{"inForceFrom":"2026-09-01"}""");
        Assert.Equal(HttpStatusCode.Created, (await herd.Post("/programme/approvals", """{"version":1}""")).Status);
        Assert.Equal("accepted", (string?)(await herd.Post("/test-results", Open)).Results[0]!["status"]);
        return (herd, herd.Address.Replace("/locations/", "/herds/", StringComparison.Ordinal));
    }

    /// <summary>The step of a kind as the API says it stands.</summary>
    public static async Task<string> State(HerdClient herd, string step, string day = "2026-10-05") =>
        string.Join(", ", (await herd.Get($"/work-calendar?from={day}&to={day}&kind=step"))["items"].AsArray()
            .Where(i => (string?)i!["step"] == step).Select(i => $"{i!["state"]}{(i["clause"] is { } clause ? $" {clause}" : "")}"));

    /// <summary>How many facts the cow has.</summary>
    public static async Task<int> Facts(HerdClient herd) => (await herd.Get("/facts?animal=1042"))["facts"].AsArray().Count;
}
