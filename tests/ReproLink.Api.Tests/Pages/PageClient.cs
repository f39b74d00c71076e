using System.Net;
using System.Text.RegularExpressions;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Pages;

/// <summary>A person at a browser without scripts: keeps cookies, reads forms, sends them.</summary>
internal sealed partial class PageClient(ApiHostFixture host) : IDisposable
{
    private readonly HttpClient _client = host.CreateClient(new() { AllowAutoRedirect = false, HandleCookies = true });

    public async Task<(HttpStatusCode Status, string Html, string? Location, IReadOnlyList<string> Cookies)> Get(string path, params (string Name, string Value)[] headers) =>
        await Send(new HttpRequestMessage(HttpMethod.Get, path), headers);

    public async Task<(HttpStatusCode Status, string Html, string? Location, IReadOnlyList<string> Cookies)> Post(
        string path, IEnumerable<(string Name, string Value)> fields, params (string Name, string Value)[] headers) =>
        await Send(
            new HttpRequestMessage(HttpMethod.Post, path)
            {
                Content = new FormUrlEncodedContent(fields.Select(f => new KeyValuePair<string, string>(f.Name, f.Value))),
            },
            headers);

    /// <summary>What a script of a page sends.</summary>
    public async Task<(HttpStatusCode Status, string Html, string? Location, IReadOnlyList<string> Cookies)> SendJson(
        HttpMethod method, string path, string json, params (string Name, string Value)[] headers) =>
        await Send(new HttpRequestMessage(method, path) { Content = new StringContent(json, System.Text.Encoding.UTF8, "application/json") }, headers);

    /// <summary>A form with a file.</summary>
    public async Task<(HttpStatusCode Status, string Html, string? Location, IReadOnlyList<string> Cookies)> PostFile(
        string path, IEnumerable<(string Name, string Value)> fields, byte[] file)
    {
        var content = new MultipartFormDataContent();
        foreach (var (name, value) in fields)
        {
            content.Add(new StringContent(value), name);
        }

        content.Add(new ByteArrayContent(file), "file", "results.csv");
        return await Send(new HttpRequestMessage(HttpMethod.Post, path) { Content = content }, []);
    }

    /// <summary>Signs in.</summary>
    public async Task SignIn(string key)
    {
        var page = await Get("/sign-in");
        var answer = await Post("/sign-in", [.. Hidden(page.Html, "/sign-in"), ("key", key)]);
        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
    }

    /// <summary>The hidden fields of the form of a page that is sent to an address.</summary>
    public static List<(string Name, string Value)> Hidden(string html, string action)
    {
        var form = Forms().Matches(html).Select(m => m.Value).First(f => f.Contains($"action=\"{WebUtility.HtmlEncode(action)}\"", StringComparison.Ordinal));
        return [.. Inputs().Matches(form).Select(m => m.Value).Where(i => i.Contains("type=\"hidden\"", StringComparison.Ordinal))
            .Select(i => (Attribute(i, "name"), Attribute(i, "value")))];
    }

    public void Dispose() => _client.Dispose();

    private static string Attribute(string input, string name) =>
        WebUtility.HtmlDecode(Regex.Match(input, $"""\b{name}="([^"]*)""" + "\"", RegexOptions.None, TimeSpan.FromSeconds(1)).Groups[1].Value);

    private async Task<(HttpStatusCode, string, string?, IReadOnlyList<string>)> Send(HttpRequestMessage request, (string Name, string Value)[] headers)
    {
        using (request)
        {
            foreach (var (name, value) in headers)
            {
                request.Headers.TryAddWithoutValidation(name, value);
            }

            using var response = await _client.SendAsync(request);
            var cookies = response.Headers.TryGetValues("Set-Cookie", out var set) ? set.ToArray() : [];
            var html = await response.Content.ReadAsStringAsync();
            Assert.DoesNotContain("&amp;amp;", html, StringComparison.Ordinal); // An address encoded twice loses what follows it.
            return (response.StatusCode, html, response.Headers.Location?.OriginalString, cookies);
        }
    }

    [GeneratedRegex("<form .*?</form>", RegexOptions.Singleline)]
    private static partial Regex Forms();

    [GeneratedRegex("<input [^>]*>")]
    private static partial Regex Inputs();
}
