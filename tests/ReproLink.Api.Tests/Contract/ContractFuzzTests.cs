using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Contract;

/// <summary>
/// Whatever is sent, the service answers with a documented status and a body of the documented form, and never fails. The
/// requests are made from the document the service itself serves. A longer run, or another one:
/// <c>CONTRACT_REQUESTS=200000 CONTRACT_SEED=7 dotnet test --filter ContractFuzz</c>.
/// </summary>
public sealed class ContractFuzzTests : IClassFixture<ContractHost>
{
    private const int UsualSeed = 20261005;
    private const int UsualRequests = 3000;
    private const int MostFaults = 25;

    private static readonly string[] Herds = ["farm/north-ridge", "uk.cph/34%2F123%2F1234"];

    // They went well once while the herds were prepared; by chance they rarely do again, for what they are about must be in the right state.
    private static readonly string[] WellWhilePrepared =
        ["postRound", "postTube", "postDispatch", "getTimeline", "assignHeldResult", "reopenHeldResult", "dismissHeldResult", "exportHerd", "importHerd"];

    private readonly ContractHost _host;

    public ContractFuzzTests(ContractHost host) => _host = host;

    [Fact]
    public async Task RandomRequests_AreAnsweredAsDocumented()
    {
        using var client = _host.Client();
        var document = new ContractDocument(await client.GetStringAsync("/openapi/v1.json"));
        var seed = Number("CONTRACT_SEED", UsualSeed);
        var known = new KnownValues();
        var run = new ContractRun(client, document, known, await Prepared(client, known), await _host.Keys(new LocationKey("farm", "north-ridge")), seed);
        await run.Send(Number("CONTRACT_REQUESTS", UsualRequests), MostFaults);
        Assert.True(run.Faults.Count == 0, $"CONTRACT_SEED={seed}: {run.Faults.Count} kinds of fault\n\n{string.Join("\n\n", run.Faults.Values)}");
        // A run in which most requests fail at the door would show nothing of what is behind it.
        var refused = run.Refused.Where(r => !WellWhilePrepared.Contains(r.Key)).Select(r => r.Value).ToArray();
        Assert.True(refused.Length == 0, string.Join("\n\n", refused));
    }

    [Fact]
    public async Task MethodsNotDocumented_AreRefused()
    {
        using var client = _host.Client();
        var document = new ContractDocument(await client.GetStringAsync("/openapi/v1.json"));
        var check = new AnswerCheck(new ContractSchemas(document));
        var maker = new RequestMaker(document, new KnownValues(), [Herds[0]], [""], 0, new Random(1));
        foreach (var path in document.Operations.GroupBy(o => o.Path))
        {
            foreach (var method in new[] { "GET", "HEAD", "POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "QUERY" }.Except(path.Select(o => o.Method)))
            {
                using var message = maker.OtherMethod(path.First(), method).ToMessage(_host.Address);
                using var answer = await client.SendAsync(message);
                Assert.True((int)answer.StatusCode == 405, $"{method} {path.Key}: {(int)answer.StatusCode}");
                Assert.NotEmpty(answer.Content.Headers.Allow);
                if (method != "HEAD")
                {
                    Assert.Null(check.Refusal(answer.Content.Headers.ContentType?.MediaType, await answer.Content.ReadAsStringAsync(), 405));
                }
            }
        }
    }

    [Fact]
    public async Task Examples_AreValid()
    {
        using var client = _host.Client();
        var document = new ContractDocument(await client.GetStringAsync("/openapi/v1.json"));
        var schemas = new ContractSchemas(document);
        var contents = document.Root["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject()).Select(o => o.Value!)
            .SelectMany(o => o["responses"]!.AsObject().Select(r => r.Value!["content"]).Append(o["requestBody"]?["content"])
                .SelectMany(c => c as JsonObject ?? []).Where(c => c.Value!["example"] is not null).Select(c => (Operation: (string)o["operationId"]!, c.Value))).ToArray();
        Assert.True(contents.Length > 300);
        var wrong = contents.Select(c => (c.Operation, Fault: schemas.Fault(c.Value!["schema"]!, c.Value["example"]!.ToJsonString()))).Where(c => c.Fault is not null).Select(c => $"{c.Operation}: {c.Fault}");
        Assert.Equal([], wrong.Distinct());
    }

    private static int Number(string name, int usual) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : usual;

    // Two herds with something in them: one with the simplest address, one whose id has slashes.
    private static async Task<IReadOnlyList<string>> Prepared(HttpClient client, KnownValues known)
    {
        foreach (var herd in Herds)
        {
            await Send(client, known, HttpMethod.Put, $"/locations/{herd}", """{"name":"North Ridge","timeZone":"America/Chicago"}""");
            await Send(client, known, HttpMethod.Put, $"/locations/{herd}/programme", """{"inForceFrom":"2026-01-01","resynchronisation":{"protocol":"ovsynch-56","start":"before-result","startDay":25}}""");
        }

        foreach (var herd in Herds)
        {
            await Send(client, known, HttpMethod.Post, $"/locations/{herd}/facts", """
                [{"sourceId":"p-1","kind":"animal","animal":"7","parity":1},{"sourceId":"p-2","kind":"calving","animal":"7","date":"2026-05-01"},
                 {"sourceId":"p-3","kind":"insemination","animal":"7","date":"2026-09-01"},{"sourceId":"p-5","kind":"animal","animal":"8","parity":1}]
                """);
            await Send(client, known, HttpMethod.Post, $"/locations/{herd}/sampling-rounds", """{"date":"2026-10-20","animals":["7"]}""");
            await Send(client, known, HttpMethod.Post, $"/locations/{herd}/sampling-rounds/R1/tubes", """{"animal":"8"}""");
            await Send(client, known, HttpMethod.Put, $"/locations/{herd}/sampling-rounds/R1/tubes/R1-001", """{"state":"drawn"}""");
            await Send(client, known, HttpMethod.Post, $"/locations/{herd}/sampling-rounds/R1/dispatch", "{}");
            await Send(client, known, HttpMethod.Post, $"/locations/{herd}/test-results", """[{"sourceId":"p-4","animal":"nobody","sampled":"2026-10-02","outcome":"open"}]""");
            await Settle(client, herd);
        }

        return [.. Herds.Select(h => h.Replace("%2F", "|", StringComparison.Ordinal))];
    }

    // A held result assigned, opened again and set aside; a herd taken out and put back.
    private static async Task Settle(HttpClient client, string herd)
    {
        Assert.True((await client.GetAsync(new Uri($"/locations/{herd}/animals/7/timeline", UriKind.Relative))).IsSuccessStatusCode);
        var held = await Held(client, herd);
        foreach (var (decision, body) in new[] { ("assign", """{"animal":"8"}"""), ("reopen", """{"reason":"wrong cow"}"""), ("dismiss", """{"reason":"no such cow"}"""), ("reopen", """{"reason":"she is found"}""") })
        {
            using var content = new StringContent(body, Encoding.UTF8, MediaTypeHeaderValue.Parse("application/json"));
            using var answer = await client.PostAsync(new Uri($"/locations/{herd}/held-results/{held}/{decision}", UriKind.Relative), content);
            Assert.True(answer.IsSuccessStatusCode, $"{decision}: {await answer.Content.ReadAsStringAsync()}");
            // What was opened again waits under an id of its own.
            held = decision == "reopen" ? await Held(client, herd) : held;
        }

        using var card = new StringContent("""{"name":"Put Back","timeZone":"America/Chicago"}""", Encoding.UTF8, MediaTypeHeaderValue.Parse("application/json"));
        Assert.True((await client.PutAsync(new Uri($"/locations/{herd}-put-back", UriKind.Relative), card)).IsSuccessStatusCode);
        using var zip = new ByteArrayContent(await client.GetByteArrayAsync($"/locations/{herd}/export"));
        zip.Headers.ContentType = MediaTypeHeaderValue.Parse("application/zip");
        using var back = await client.PostAsync(new Uri($"/locations/{herd}-put-back/import", UriKind.Relative), zip);
        Assert.True(back.IsSuccessStatusCode, await back.Content.ReadAsStringAsync());
    }

    private static async Task<string> Held(HttpClient client, string herd) =>
        (string)JsonNode.Parse(await client.GetStringAsync($"/locations/{herd}/held-results"))!["held"]![0]!["heldId"]!;

    private static async Task Send(HttpClient client, KnownValues known, HttpMethod method, string path, string json)
    {
        using var message = new HttpRequestMessage(method, path) { Content = new StringContent(json, Encoding.UTF8, MediaTypeHeaderValue.Parse("application/json")) };
        using var answer = await client.SendAsync(message);
        var body = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, body);
        known.Learn(path.Split('/')[^1], JsonNode.Parse(body), answer.Headers);
    }
}
