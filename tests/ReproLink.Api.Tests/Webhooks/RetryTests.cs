using System.Globalization;
using NodaTime;
using ReproLink.Api.Webhooks.Sending;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>What happens when a receiver does not take a message: time is moved by hand.</summary>
public sealed class RetryTests : WebhookScene
{
    [Fact]
    public async Task Failing_IsTriedTenTimesOverThreeDays_ThenStopped_WithTheReason()
    {
        Receiver.AnswerStatus(500);
        var (webhook, secret) = await Herd.Register(Receiver.Url);
        await Herd.Happen("o-1");
        await Host.SendDue();
        foreach (var (wait, tried) in RetrySchedule.Waits.Select((w, i) => (w, i + 1)))
        {
            Assert.Equal(tried, Receiver.All.Count);
            // Jitter is at most a tenth.
            await Host.Move(Herd, wait * 0.899);
            await Host.SendDue();
            Assert.Equal(tried, Receiver.All.Count);
            await Host.Move(Herd, wait * 0.202);
            await Host.SendDue();
        }

        Assert.Equal(10, Receiver.All.Count);
        Assert.Single(Receiver.All.Select(a => (a.Id, a.Body)).Distinct());
        Assert.All(Receiver.All, a => Assert.Equal(a.Expected(secret), a.Signatures));
        Assert.Equal(10, Receiver.All.Select(a => a.Timestamp).Distinct().Count());
        var stopped = await Herd.Get($"/webhooks/{webhook}");
        var id = Receiver.All.First().Id;
        Assert.Equal(
            ("stopped", $"Every attempt at {id} failed, and nothing else got through meanwhile. The last: The receiver answered 500."),
            ((string?)stopped["state"], (string?)stopped["reason"]));
        Assert.Equal("2026-10-05T12:00:00Z", (string?)stopped["failingSince"]);
        var delivery = await Herd.Get($"/webhooks/{webhook}/deliveries/{id}");
        Assert.Equal(("failed", 10), ((string?)delivery["state"], delivery["attempts"].AsArray().Count));

        await Herd.Happen("o-2");
        await Host.Move(Herd, Duration.FromDays(30));
        await Host.SendDue();
        Assert.Equal(10, Receiver.All.Count);

        Receiver.AnswerStatus(200);
        await Herd.Patch($"/webhooks/{webhook}", """{"state":"active"}""");
        await Host.SendDue();
        Assert.Equal((11, 1), (Receiver.All.Count, (int)Receiver.All.Last().Data["counts"]!["fact"]!));
        await Herd.Post($"/webhooks/{webhook}/deliveries/{id}/redeliver", "");
        await Host.SendDue();
        Assert.Equal(id, Receiver.All.Last().Id);
        Assert.Null((await Herd.Get($"/webhooks/{webhook}")).Json!["failingSince"]);
    }

    [Fact]
    public async Task OneMessageThatFailsForGood_StopsNothing_WhileOthersGetThrough()
    {
        var (webhook, _) = await Herd.Register(Receiver.Url);
        await Herd.Happen("poison");
        Receiver.Answer = (context, arrived) =>
        {
            context.Response.StatusCode = arrived.Id == Receiver.All.First().Id ? 400 : 204;
            return Task.CompletedTask;
        };
        await Host.SendDue();
        for (var i = 0; i < 10; i++)
        {
            await Host.Move(Herd, Duration.FromHours(27));
            await Herd.Happen($"o-{i}");
            await Host.SendDue();
        }

        // Each time it fails, what is new waits for half an hour.
        await Host.Move(Herd, Duration.FromHours(1));
        await Host.SendDue();
        Assert.Equal("active", (string?)(await Herd.Get($"/webhooks/{webhook}"))["state"]);
        Assert.Equal(Receiver.All.First().Id, (string?)Assert.Single((await Herd.Get($"/webhooks/{webhook}/deliveries?state=failed"))["deliveries"].AsArray())!["id"]);
        Assert.Equal(11, Receiver.All.DistinctBy(a => a.Id).Sum(a => (int)a.Data["counts"]!["fact"]!));
        Assert.Empty((await Herd.Get($"/webhooks/{webhook}/deliveries?state=waiting"))["deliveries"].AsArray());
    }

    [Fact]
    public async Task WhileItFails_NewChanges_AreNotAMessageEach()
    {
        Receiver.AnswerStatus(503);
        await Herd.Register(Receiver.Url);
        for (var i = 0; i < 50; i++)
        {
            await Herd.Happen($"o-{i}");
            await Host.SendDue();
        }

        Assert.Single(Receiver.All);
        Receiver.AnswerStatus(204);
        await Host.Move(Herd, Duration.FromSeconds(6));
        await Host.SendDue();
        Assert.Equal(3, Receiver.All.Count);
        Assert.Equal([1, 1, 49], Receiver.All.Select(a => (int)a.Data["counts"]!["fact"]!).Order());
    }

    [Fact]
    public async Task Gone_StopsItAtOnce()
    {
        Receiver.AnswerStatus(410);
        var (webhook, _) = await Herd.Register(Receiver.Url);
        await Herd.Happen("o-1");
        await Host.SendDue();
        await Herd.Happen("o-2");
        await Host.Move(Herd, Duration.FromDays(10));
        await Host.SendDue();
        Assert.Single(Receiver.All);
        var stopped = await Herd.Get($"/webhooks/{webhook}");
        Assert.Equal(("stopped", "The receiver answered 410: it wants no more messages."), ((string?)stopped["state"], (string?)stopped["reason"]));
        Assert.Equal("2026-10-05T12:00:00Z", (string?)stopped["stoppedAt"]);
    }

    [Theory]
    [InlineData("3600", 3600)]
    [InlineData("1", 5)]
    [InlineData("Mon, 05 Oct 2026 14:00:00 GMT", 7200)]
    [InlineData("Mon, 05 Oct 2020 14:00:00 GMT", 5)]
    [InlineData("999999999", 86400)]
    [InlineData("soon", 5)]
    public async Task RetryAfter_IsHonoured_ForNewMessagesToo(string header, int seconds)
    {
        Receiver.AnswerStatus(503, "Retry-After", header);
        var (webhook, _) = await Herd.Register(Receiver.Url);
        await Herd.Happen("o-1");
        await Host.SendDue();
        await Herd.Happen("o-2");
        await Host.Move(Herd, Duration.FromSeconds(seconds) * 0.89);
        await Host.SendDue();
        Assert.Single(Receiver.All);
        Receiver.AnswerStatus(204);
        await Host.Move(Herd, Duration.FromSeconds(seconds) * 0.22);
        await Host.SendDue();
        Assert.Equal(3, Receiver.All.Count);
        Assert.Empty((await Herd.Get($"/webhooks/{webhook}/deliveries?state=waiting"))["deliveries"].AsArray());
    }

    [Fact]
    public async Task NewUrl_IsTriedAtOnce()
    {
        await using var mended = await Receiver.Start();
        Receiver.AnswerStatus(404);
        var (webhook, _) = await Herd.Register(Receiver.Url);
        await Herd.Happen("o-1");
        await Host.SendDue();
        await Herd.Patch($"/webhooks/{webhook}", $$"""{"url":"{{mended.Url}}"}""");
        await Host.SendDue();
        Assert.Equal(Receiver.All.First().Id, Assert.Single(mended.All).Id);
    }

    [Fact]
    public async Task NobodyListening_IsSaidInASentence()
    {
        var (webhook, _) = await Herd.Register(Receiver.Url);
        await Receiver.DisposeAsync();
        await Herd.Happen("o-1");
        await Host.SendDue();
        var delivery = (await Herd.Get($"/webhooks/{webhook}/deliveries"))["deliveries"][0]!;
        Assert.Equal("Nobody listens at the receiver's address.", (string?)delivery["attempts"]![0]!["error"]);
        Assert.Equal("waiting", (string?)delivery["state"]);
    }

    [Fact]
    public void Schedule_IsTheSpecifications_WithJitterThatIsTheSameEachTime()
    {
        // Standard Webhooks specification 1.0.0, "Deliverability and reliability": the example schedule.
        Assert.Equal(
            ["5", "300", "1800", "7200", "18000", "36000", "50400", "72000", "86400"],
            RetrySchedule.Waits.Select(w => w.TotalSeconds.ToString(CultureInfo.InvariantCulture)));
        var now = Instant.FromUtc(2026, 10, 5, 12, 0);
        var waits = Enumerable.Range(0, 1000).Select(i => (RetrySchedule.Next($"msg_{i}", 3, now, null)!.Value - now).TotalMinutes).ToArray();
        Assert.All(waits, w => Assert.InRange(w, 27, 33));
        Assert.InRange(waits.Average(), 29.8, 30.2);
        Assert.True(waits.Distinct().Count() > 990);
        Assert.Equal(RetrySchedule.Next("msg_1", 3, now, null), RetrySchedule.Next("msg_1", 3, now, null));
        Assert.Null(RetrySchedule.Next("msg_1", 10, now, Duration.FromHours(1)));
    }
}
