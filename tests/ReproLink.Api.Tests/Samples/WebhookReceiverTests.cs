using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Samples;

/// <summary>The receiver in docs/ is told by the real demo, and reads on.</summary>
[Collection(nameof(Samples))]
public sealed class WebhookReceiverTests
{
    [SkippableFact]
    public async Task The_receiver_in_the_docs_is_told_and_reads_on()
    {
        // Its clock runs: the receiver takes no message that is old.
        await using var demo = await DemoProcess.Start();
        await using var receiver = SampleProcess.Start(SampleProcess.Script("webhook_receiver.py", demo.Location));
        Assert.StartsWith("told at port", await receiver.Until("told"), StringComparison.Ordinal);
        Assert.Equal("message webhook.test {}", await receiver.Until("message "));
        var today = DateTime.UtcNow.AddDays(-2).ToString("yyyy-MM-dd", null);
        using var posted = await demo.Client.PostAsJsonAsync(new Uri(demo.Location + "/facts"), new[] { new { sourceId = "sample-1", kind = "oestrus", animal = "sample", date = today } });
        var fact = JsonNode.Parse(await posted.Content.ReadAsStringAsync())!["results"]![0]!["factId"];
        Assert.Equal("""message herd.changed {"fact": 1}""", await receiver.Until("message "));
        Assert.Equal($"change fact sample {fact}", await receiver.Until("change "));

        var forged = await demo.Client.PostAsJsonAsync(new Uri((string)(await Hooks(demo))[0]!["url"]!), new { type = "herd.changed", data = new { } });
        Assert.Equal(401, (int)forged.StatusCode);
        using var stop = Process.Start("python3", ["-c", $"import os; os.kill({receiver.Id}, 2)"]);
        await receiver.End();
        Assert.Empty(await Hooks(demo));
    }

    private static async Task<JsonArray> Hooks(DemoProcess demo) => (await demo.Get("/webhooks"))["webhooks"]!.AsArray();
}
