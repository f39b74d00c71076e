using System.Net;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>What is told, to whom, and how often.</summary>
public sealed class DeliveryTests : WebhookScene
{
    [Fact]
    public async Task Preview_AndRejectedFacts_TellNothing()
    {
        await Herd.Register(Receiver.Url);
        Assert.Equal(HttpStatusCode.OK, (await Herd.Post("/test-results/preview", """[{"sourceId":"r","animal":"2","sampled":"2026-10-01","outcome":"open"}]""")).Status);
        Assert.Equal(HttpStatusCode.OK, (await Herd.Post("/facts", """[{"sourceId":"o","kind":"oestrus","animal":"1","date":"2027-10-01"}]""")).Status);
        await Host.SendDue();
        Assert.Empty(Receiver.All);
    }

    [Fact]
    public async Task OneFact_IsOneMessage_SaidOnce_WithNothingOfWhatItSays()
    {
        var (webhook, _) = await Herd.Register(Receiver.Url);
        var before = (string?)(await Herd.Get("/changes"))["next"];
        var id = (await Herd.Accept("""[{"sourceId":"e-1","source":"Dr Hale","kind":"examination","animal":"1042","date":"2026-10-01","method":"ultrasound","outcome":"open"}]"""))[0];
        await Host.SendDue();
        await Host.SendDue();
        var arrived = Assert.Single(Receiver.All);
        var change = (await Herd.Get($"/changes?after={before}"))["changes"][0]!;
        Assert.Equal($$$"""
            {"type":"herd.changed","timestamp":"2026-10-05T12:00:00Z","data":{"location":{"scheme":"farm","id":"{{{Herd.Address.Split('/')[^1]}}}"},"webhook":{{{webhook}}},"after":"{{{before}}}","cursor":"{{{change["cursor"]}}}","counts":{"fact":1},"changes":[{"cursor":"{{{change["cursor"]}}}","kind":"fact","animal":"1042","factId":"{{{id}}}"}]}}
            """, arrived.Body);
        Assert.Equal("application/json; charset=utf-8", arrived.Headers.ContentType);
        Assert.Equal($"{InstantPattern.ExtendedIso.Parse(ApiHostFixture.Start).Value.ToUnixTimeSeconds()}", arrived.Timestamp);
        var delivery = Assert.Single((await Herd.Get($"/webhooks/{webhook}/deliveries"))["deliveries"].AsArray())!;
        Assert.Equal((arrived.Id, "delivered", arrived.Body), ((string?)delivery["id"], (string?)delivery["state"], (string?)delivery["body"]));
        Assert.Equal(204, (int)Assert.Single(delivery["attempts"]!.AsArray())!["status"]!);
    }

    [Fact]
    public async Task ThousandFacts_AreOneMessage()
    {
        await Herd.Register(Receiver.Url);
        var before = (string?)(await Herd.Get("/changes"))["next"];
        var facts = string.Join(',', Enumerable.Range(0, 1000).Select(i => $$"""{"sourceId":"o-{{i}}","kind":"oestrus","animal":"{{i}}","date":"2026-10-01"}"""));
        await Herd.Accept($"[{facts}]");
        await Host.SendDue();
        var data = Assert.Single(Receiver.All).Data;
        Assert.Equal("""{"fact":1000}""", data["counts"]!.ToJsonString());
        Assert.Null(data["changes"]);
        Assert.Equal(before, (string?)data["after"]);
        Assert.Equal((string?)(await Herd.Get($"/changes?after={before}&limit=1000"))["next"], (string?)data["cursor"]);
        Assert.True(Receiver.All.First().Body.Length < 500);
    }

    [Fact]
    public async Task OnlyTheKindsAskedFor_AreTold()
    {
        await Herd.Register(Receiver.Url, ""","kinds":["withdrawal","held"]""");
        var id = (await Herd.Happen("o-1"))[0];
        await Host.SendDue();
        Assert.Empty(Receiver.All);
        await Herd.Post($"/facts/{id}/withdraw", """{"reason":"the wrong cow of Mr Miller"}""");
        await Herd.Post("/test-results", """[{"sourceId":"r","animal":"9","sampled":"2026-10-01","outcome":"open"}]""");
        await Host.SendDue();
        var data = Assert.Single(Receiver.All).Data;
        Assert.Equal("""{"withdrawal":1,"held":1}""", data["counts"]!.ToJsonString());
        Assert.Equal(["withdrawal", "held"], data["changes"]!.AsArray().Select(c => (string?)c!["kind"]));
        Assert.Equal(id, (string?)data["changes"]![0]!["factId"]);
        Assert.StartsWith("h_", (string?)data["changes"]![1]!["heldId"], StringComparison.Ordinal);
        Assert.DoesNotContain("Miller", Receiver.All.First().Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Paused_IsToldNothing_AndResumed_EverythingInOneMessage()
    {
        var (webhook, _) = await Herd.Register(Receiver.Url);
        Assert.Equal("paused", (string?)(await Herd.Patch($"/webhooks/{webhook}", """{"state":"paused"}"""))["state"]);
        for (var i = 0; i < 3; i++)
        {
            await Herd.Happen($"o-{i}");
            await Host.SendDue();
        }

        Assert.Empty(Receiver.All);
        Assert.Equal("active", (string?)(await Herd.Patch($"/webhooks/{webhook}", """{"state":"active"}"""))["state"]);
        await Host.SendDue();
        Assert.Equal(3, (int)Assert.Single(Receiver.All).Data["counts"]!["fact"]!);
        Assert.Equal(HttpStatusCode.NoContent, (await Herd.Delete($"/webhooks/{webhook}")).Status);
        await Herd.Happen("o-9");
        await Host.SendDue();
        Assert.Single(Receiver.All);
    }

    [Fact]
    public async Task Ping_IsSentOnce_AlsoWhilePaused()
    {
        var (webhook, secret) = await Herd.Register(Receiver.Url);
        await Herd.Patch($"/webhooks/{webhook}", """{"state":"paused"}""");
        Receiver.AnswerStatus(500);
        var ping = await Herd.Post($"/webhooks/{webhook}/ping", "");
        Assert.Equal(HttpStatusCode.Accepted, ping.Status);
        Assert.Equal($"{Herd.Address}/webhooks/{webhook}/deliveries/{ping["id"]}", ping.Headers.Location!.ToString());
        await Host.SendDue();
        await Host.Move(Herd, Duration.FromDays(3));
        await Host.SendDue();
        var arrived = Assert.Single(Receiver.All);
        Assert.Equal(arrived.Expected(secret), arrived.Signatures);
        Assert.Equal("webhook.test", (string?)arrived.Json["type"]);
        var delivery = await Herd.Get($"/webhooks/{webhook}/deliveries/{ping["id"]}");
        Assert.Equal(("failed", "The receiver answered 500."), ((string?)delivery["state"], (string?)delivery["attempts"][0]!["error"]));
        Assert.Null((await Herd.Get($"/webhooks/{webhook}")).Json!["failingSince"]);
    }

    [Fact]
    public async Task Redelivery_HasTheSameIdAndBody_AndATimestampOfItsOwn()
    {
        var (webhook, secret) = await Herd.Register(Receiver.Url);
        await Herd.Happen("o-1");
        await Host.SendDue();
        await Host.Move(Herd, Duration.FromHours(1));
        var path = $"/webhooks/{webhook}/deliveries/{Receiver.All.First().Id}";
        var again = await Herd.Post($"{path}/redeliver", "");
        Assert.Equal((HttpStatusCode.Accepted, "waiting"), (again.Status, (string?)again["state"]));
        await Host.SendDue();
        Assert.Equal(2, Receiver.All.Count);
        var (first, second) = (Receiver.All.First(), Receiver.All.Last());
        Assert.Equal((first.Id, first.Body), (second.Id, second.Body));
        Assert.Equal(3600, long.Parse(second.Timestamp, null) - long.Parse(first.Timestamp, null));
        Assert.Equal(second.Expected(secret), second.Signatures);
        var delivery = await Herd.Get(path);
        Assert.Equal("delivered", (string?)delivery["state"]);
        Assert.Equal([1, 2], delivery["attempts"].AsArray().Select(a => (int)a!["attempt"]!));

        await Herd.Patch($"/webhooks/{webhook}", """{"state":"paused"}""");
        Assert.Equal("/problems/webhook-not-active", (string?)(await Herd.Post($"{path}/redeliver", ""))["type"]);
        Assert.Equal("/problems/delivery-not-found", (string?)(await Herd.Post($"/webhooks/{webhook}/deliveries/msg_0/redeliver", ""))["type"]);
    }

    [Fact]
    public async Task TwoProcesses_OnOneFile_SendOnce()
    {
        await using var second = new WebhookHost { OnFile = DatabaseOf(Host) };
        await Herd.Register(Receiver.Url);
        for (var i = 0; i < 10; i++)
        {
            await Herd.Happen($"o-{i}");
            await Task.WhenAll(Task.Run(Host.SendDue), Task.Run(second.SendDue));
        }

        // Whoever was busy may have left the last to the other.
        await Host.SendDue();
        Assert.Equal(10, Receiver.All.Sum(a => (int)a.Data["counts"]!["fact"]!));
        Assert.Equal(Receiver.All.Count, Receiver.All.Select(a => a.Id).Distinct().Count());
    }

    [Fact]
    public async Task SlowReceiver_DoesNotHoldUpAnother()
    {
        await using var slow = await Receiver.Start();
        var over = new TaskCompletionSource();
        slow.Answer = (_, _) => over.Task;
        await Herd.Register(slow.Url);
        await Herd.Register(Receiver.Url);
        await Herd.Happen("o-1");
        var sending = Host.SendDue();
        await Receiver.Next();
        Assert.False(sending.IsCompleted);
        over.SetResult();
        await sending;
        Assert.Single(slow.All);
    }

    private static string DatabaseOf(WebhookHost host) =>
        ((Microsoft.Extensions.Configuration.IConfiguration)host.Services.GetService(typeof(Microsoft.Extensions.Configuration.IConfiguration))!)["Database"]!;
}
