using NodaTime;

namespace ReproLink.Records.Tests.Webhooks;

/// <summary>What is to be sent: nothing that was undone, everything that was stored, by one process at a time.</summary>
public sealed class OutboxTests
{
    private static readonly Instant Noon = TempStore.Noon;
    private static readonly Duration Lease = Duration.FromMinutes(1);
    private static readonly WebhookOwner Anna = new("anna", null);
    private int _ids;

    [Fact]
    public async Task A_change_that_was_undone_is_never_told()
    {
        await using var temp = await TempStore.WithHerd();
        await Make(temp);
        await using (var writer = new Writer(Connection.ForWriting(temp.Path), _ => { }))
        {
            await writer.Try(unit => unit.Change(temp.Herd.Id, unit.Record(Noon), ChangeKind.Herd, null, temp.Herd.Id));
            await Assert.ThrowsAsync<InvalidOperationException>(() => writer.Write<long>(unit =>
            {
                unit.Change(temp.Herd.Id, unit.Record(Noon), ChangeKind.Herd, null, temp.Herd.Id);
                throw new InvalidOperationException("it failed after all");
            }));
            Assert.Empty(temp.Store.Outbox.Candidates(Noon));
            await writer.Write(unit => unit.Change(temp.Herd.Id, unit.Record(Noon), ChangeKind.Herd, null, temp.Herd.Id));
        }

        Assert.Equal(1, Assert.Single(Assert.Single(temp.Store.Outbox.Candidates(Noon)).Untold!.Counts).Count);
    }

    [Fact]
    public async Task What_was_stored_waits_through_a_restart()
    {
        await using var temp = await TempStore.WithHerd();
        await Make(temp);
        var fact = await temp.Post("1", "2026-07-01 calving id c-1");
        await temp.Reopen();
        var untold = Assert.Single(temp.Store.Outbox.Candidates(Noon)).Untold!;
        var change = Assert.Single(untold.Few!);
        Assert.Equal((ChangeKind.Fact, "1", fact.Id.ToString()), (change.Kind, change.Animal, change.Subject));
        Assert.Equal([change], temp.Store.Changes.After(temp.Herd, untold.After, 10).Items);
    }

    [Fact]
    public async Task A_message_taken_by_a_process_that_died_is_sent_by_another_with_the_same_id()
    {
        await using var temp = await TempStore.WithHerd();
        await Make(temp);
        await temp.Post("1", "2026-07-01 calving id c-1");
        await using var other = temp.Open();
        var candidate = Assert.Single(temp.Store.Outbox.Candidates(Noon));
        var late = Assert.Single(other.Outbox.Candidates(Noon));
        var claim = await temp.Store.Outbox.Claim(candidate, Message(), Noon, Lease);
        Assert.NotNull(claim);
        Assert.Null(await other.Outbox.Claim(late, Message(), Noon, Lease));
        await temp.Post("1", "2026-07-02 oestrus id o-1");
        Assert.Empty(other.Outbox.Candidates(Noon + Lease - Duration.Epsilon));

        var over = Noon + Lease;
        var again = await other.Outbox.Claim(Assert.Single(other.Outbox.Candidates(over)), null, over, Lease);
        Assert.Equal((claim.Id, claim.Body, 1), (again!.Id, again.Body, again.Try));
        await other.Outbox.Finish(again, Outcome(over, null));
        Assert.Equal(1, Assert.Single(Assert.Single(other.Outbox.Candidates(over)).Untold!.Counts).Count);
    }

    [Fact]
    public async Task Two_that_read_the_same_changes_tell_them_once()
    {
        await using var temp = await TempStore.WithHerd();
        await Make(temp);
        await temp.Post("1", "2026-07-01 calving id c-1");
        await using var other = temp.Open();
        var (first, second) = (temp.Store.Outbox.Candidates(Noon)[0], other.Outbox.Candidates(Noon)[0]);
        var claim = await temp.Store.Outbox.Claim(first, Message(), Noon, Lease);
        await temp.Store.Outbox.Finish(claim!, Outcome(Noon, null));
        Assert.Null(await other.Outbox.Claim(second, Message(), Noon, Lease));
        Assert.Empty(other.Outbox.Candidates(Noon));
    }

    [Fact]
    public async Task Only_the_kinds_asked_for_are_told_also_after_others_were_looked_through()
    {
        await using var temp = await TempStore.WithHerd();
        await Make(temp, ChangeKind.Withdrawal);
        var fact = await temp.Post("1", "2026-07-01 calving id c-1");
        Assert.Empty(temp.Store.Outbox.Candidates(Noon));
        await temp.Store.Facts.Withdraw(temp.Herd, fact.Id, "wrong", "anna", Noon);
        Assert.Equal([(ChangeKind.Withdrawal, 1L)], Assert.Single(temp.Store.Outbox.Candidates(Noon)).Untold!.Counts);
    }

    [Fact]
    public async Task The_log_is_bounded_and_keeps_what_waits()
    {
        await using var temp = await TempStore.WithHerd();
        var webhook = await Make(temp);
        var failing = await Deliver(temp, 0, Noon + Duration.FromDays(1));
        for (var i = 1; i <= 510; i++)
        {
            await Deliver(temp, i, null);
        }

        var kept = temp.Store.Deliveries.List(temp.Herd, webhook.Id, null, null, 1000).Items;
        Assert.Equal(501, kept.Count);
        Assert.Equal(failing, kept[^1].Id);
        Assert.Equal(failing, Assert.Single(temp.Store.Deliveries.List(temp.Herd, webhook.Id, DeliveryState.Waiting, null, 1000).Items).Id);
        var paged = temp.Store.Deliveries.List(temp.Herd, webhook.Id, null, null, 300);
        var rest = temp.Store.Deliveries.List(temp.Herd, webhook.Id, null, paged.Next, 300);
        Assert.Equal(kept.Select(d => d.Id), paged.Items.Concat(rest.Items).Select(d => d.Id));
        Assert.Null(rest.Next);
    }

    [Fact]
    public async Task A_deleted_webhook_leaves_no_secret_and_its_number_is_not_given_again()
    {
        await using var temp = await TempStore.WithHerd();
        var made = await temp.Store.Webhooks.Create(temp.Herd, new WebhookDraft("https://a.example/", null, ChangeKinds.All), Anna, Noon);
        await temp.Post("1", "2026-07-01 calving id c-1");
        var claim = await temp.Store.Outbox.Claim(temp.Store.Outbox.Candidates(Noon)[0], Message(), Noon, Lease);
        Assert.True(await temp.Store.Webhooks.Delete(temp.Herd, made.Webhook!.Id));
        Assert.False(await temp.Store.Webhooks.Delete(temp.Herd, made.Webhook.Id));
        await temp.Store.Outbox.Finish(claim!, Outcome(Noon, "The receiver answered 500."));
        Assert.Empty(temp.Store.Outbox.Candidates(Noon + Duration.FromDays(10)));
        Assert.Equal(2, (await Make(temp)).Id);
        await temp.Store.DisposeAsync();
        Assert.DoesNotContain(Convert.ToHexString(made.Secret!), Convert.ToHexString(await File.ReadAllBytesAsync(temp.Path)), StringComparison.Ordinal);
    }

    private static async Task<Webhook> Make(TempStore temp, params ChangeKind[] kinds) => (await temp.Store.Webhooks.Create(
        temp.Herd, new WebhookDraft("https://receiver.example/", null, kinds.Length == 0 ? ChangeKinds.All : new ChangeKinds(kinds)), Anna, Noon)).Webhook!;

    private async Task<string> Deliver(TempStore temp, int i, Instant? next)
    {
        await temp.Post("1", $"2026-07-01 oestrus id o-{i}");
        var claim = await temp.Store.Outbox.Claim(Assert.Single(temp.Store.Outbox.Candidates(Noon)), Message(), Noon, Lease);
        await temp.Store.Outbox.Finish(claim!, Outcome(Noon, next is null ? null : "The receiver answered 500.") with { Next = next, HeldUntil = null });
        return claim!.Id;
    }

    private static AttemptOutcome Outcome(Instant at, string? error) => new(at, Duration.FromMilliseconds(5), error is null ? 204 : 500, error, null, at, false, "why");

    private NewMessage Message() => new($"msg_{_ids++}", "herd.changed", "{}");
}
