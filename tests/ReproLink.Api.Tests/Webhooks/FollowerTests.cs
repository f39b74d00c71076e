using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>A receiver that reads the feed whenever it is told to ends with what the service has.</summary>
public sealed class FollowerTests
{
    [Fact]
    public async Task EightWriters_AReceiverThatFollows_EndsWithTheServersState()
    {
        await using var host = new WebhookHost { SendByItself = true };
        await using var receiver = await Receiver.Start();
        var herd = await HerdClient.Create(host);
        await herd.Register(receiver.Url);
        // It fails now and then, which must lose nothing.
        receiver.Answer = (context, _) =>
        {
            context.Response.StatusCode = receiver.All.Count % 5 == 3 ? 500 : 204;
            return Task.CompletedTask;
        };
        var facts = new Dictionary<string, string>();
        var writing = Task.WhenAll(Enumerable.Range(0, 8).Select(writer => Task.Run(() => Write(herd, writer))));
        var (at, next, patience) = ("", receiver.Next(), DateTime.UtcNow.AddMinutes(3));
        // It reads only when it is told to.
        while (!writing.IsCompleted || at != (string?)(await herd.Get("/changes?limit=1000"))["next"])
        {
            Assert.True(DateTime.UtcNow < patience, "The last change was never told.");
            if (await Task.WhenAny(next, Task.Delay(50)) == next)
            {
                await next;
                next = receiver.Next();
                at = await Follow(herd, at, facts);
            }
            else if (writing.IsCompleted)
            {
                // The clock stands: what failed is due once it is moved.
                await host.Move(herd, NodaTime.Duration.FromMinutes(6));
            }
        }

        await writing;
        var served = (await herd.Get("/facts?limit=1000"))["facts"].AsArray();
        Assert.Equal(served.Select(f => f!.ToJsonString()).Order(), facts.Values.Order());
        Assert.NotEmpty(facts);
    }

    [Fact]
    public async Task KilledBetweenCommitAndSending_TheChangeIsToldAfterTheRestart()
    {
        await using var receiver = await Receiver.Start();
        var folder = Directory.CreateTempSubdirectory("reprolink-hooks-");
        try
        {
            var database = Path.Combine(folder.FullName, "herds.db");
            using (var server = Start(database, deliver: false))
            {
                using var client = new HttpClient { BaseAddress = await Address(server) };
                using var made = await client.PutAsJsonAsync(new Uri("/locations/farm/crash", UriKind.Relative), new { name = "Crash", timeZone = "America/Chicago" });
                using var hook = await client.PostAsJsonAsync(new Uri("/locations/farm/crash/webhooks", UriKind.Relative), new { url = receiver.Url });
                using var fact = await client.PostAsJsonAsync(new Uri("/locations/farm/crash/facts", UriKind.Relative),
                    new[] { new { sourceId = "o-1", kind = "oestrus", animal = "1042", date = "2026-10-01" } });
                Assert.All([made, hook, fact], answer => Assert.True(answer.IsSuccessStatusCode));
                server.Kill();
                await server.WaitForExitAsync();
            }

            Assert.Empty(receiver.All);
            using (var server = Start(database, deliver: true))
            {
                try
                {
                    Assert.Equal(1, (int)(await receiver.Next()).Data["counts"]!["fact"]!);
                }
                finally
                {
                    server.Kill();
                    await server.WaitForExitAsync();
                }
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static Process Start(string database, bool deliver) => Process.Start(new ProcessStartInfo("dotnet",
        [typeof(Program).Assembly.Location, "serve", "--allow-private-webhooks", "--urls", "http://127.0.0.1:0", "--Database", database, "--environment", "Testing",
         "--Clock", ApiHostFixture.Start, "--Logging:LogLevel:Default=Information", $"--Webhooks:Deliver={deliver}"])
    {
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    })!;

    private static async Task<Uri> Address(Process server)
    {
        while (await server.StandardOutput.ReadLineAsync() is { } line)
        {
            var at = line.IndexOf("Now listening on: ", StringComparison.Ordinal);
            if (at >= 0)
            {
                return new Uri(line[(at + "Now listening on: ".Length)..].Trim());
            }
        }

        throw new InvalidOperationException(await server.StandardError.ReadToEndAsync());
    }

    private static async Task Write(HerdClient herd, int writer)
    {
        for (var i = 0; i < 15; i++)
        {
            await herd.Accept($$"""[{"sourceId":"{{writer}}-{{i}}","kind":"oestrus","animal":"{{i % 4}}","date":"2026-09-{{1 + i:00}}"}]""");
            if (i % 5 == 4)
            {
                var gone = (await herd.Get("/facts?limit=1"))["facts"][0]!["factId"];
                await herd.Post($"/facts/{gone}/withdraw", """{"reason":"test"}""");
            }
        }
    }

    private static async Task<string> Follow(HerdClient herd, string at, Dictionary<string, string> facts)
    {
        while (true)
        {
            var page = await herd.Get($"/changes?limit=50{(at.Length == 0 ? "" : $"&after={at}")}");
            foreach (var change in page["changes"].AsArray())
            {
                Take(change!, facts);
            }

            if (page["changes"].AsArray().Count == 0)
            {
                return at;
            }

            at = (string)page["next"]!;
        }
    }

    private static void Take(JsonNode change, Dictionary<string, string> facts)
    {
        switch ((string?)change["kind"])
        {
            case "fact":
                facts.Add((string)change["fact"]!["factId"]!, change["fact"]!.ToJsonString());
                break;
            case "withdrawal":
                Assert.True(facts.Remove((string)change["factId"]!));
                break;
        }
    }
}
