using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Tests.Support;
using StandardWebhooks;
using StandardWebhooks.Diagnostics;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>Signatures, computed anew and by the library's own verifier, which looks at the real time.</summary>
public sealed class SignatureTests : WebhookScene
{
    protected override WebhookHost MakeHost() => new() { Clock = InstantPattern.ExtendedIso.Format(SystemClock.Instance.GetCurrentInstant()) };

    [Fact]
    public async Task Message_IsSigned_AsTheSpecificationSays()
    {
        var (_, secret) = await Herd.Register(Receiver.Url);
        var (_, foreign) = await (await HerdClient.Create(Host)).Register(Receiver.Url);
        await Herd.Accept("""[{"sourceId":"o-1","kind":"oestrus","animal":"Flóra \"II\" 🐄","date":"2020-10-01"}]""");
        await Host.SendDue();
        var arrived = Assert.Single(Receiver.All);
        Assert.Equal(arrived.Expected(secret), arrived.Signatures);
        new StandardWebhook(secret).Verify(arrived.Body, arrived.Headers);
        Assert.Throws<WebhookVerificationException>(() => new StandardWebhook(foreign).Verify(arrived.Body, arrived.Headers));
        Assert.Throws<WebhookVerificationException>(() => new StandardWebhook(secret).Verify(arrived.Body + " ", arrived.Headers));
    }

    [Fact]
    public async Task DuringAnOverlap_EitherSecretVerifies_AndAfterItOnlyTheNewOne()
    {
        var (webhook, old) = await Herd.Register(Receiver.Url);
        var rotated = await Herd.Post($"/webhooks/{webhook}/rotate-secret", """{"overlapHours":2}""");
        var fresh = (string)rotated["secret"]!;
        Assert.NotEqual(old, fresh);
        Assert.NotNull(rotated["oldSecretUntil"]);
        await Herd.Happen("o-1");
        await Host.SendDue();
        var both = Assert.Single(Receiver.All);
        Assert.Equal([both.Expected(fresh), both.Expected(old), both.Expected(fresh)], both.Signatures.Split(' '));
        new StandardWebhook(fresh).Verify(both.Body, both.Headers);
        new StandardWebhook(old).Verify(both.Body, both.Headers);

        await Host.Move(Herd, Duration.FromHours(2) + Duration.FromSeconds(1));
        await Herd.Happen("o-2");
        await Host.SendDue();
        var after = Receiver.All.Last();
        Assert.Equal(after.Expected(fresh), after.Signatures);
        Assert.Null((await Herd.Get($"/webhooks/{webhook}")).Json!["oldSecretUntil"]);
    }

    [Fact]
    public async Task WithoutAnOverlap_TheOldSecretIsWorthlessAtOnce()
    {
        var (webhook, old) = await Herd.Register(Receiver.Url);
        await Herd.Post($"/webhooks/{webhook}/rotate-secret", """{"overlapHours":0}""");
        await Herd.Happen("o-1");
        await Host.SendDue();
        var arrived = Assert.Single(Receiver.All);
        Assert.DoesNotContain(arrived.Expected(old), arrived.Signatures, StringComparison.Ordinal);
        Assert.Throws<WebhookVerificationException>(() => new StandardWebhook(old).Verify(arrived.Body, arrived.Headers));
    }
}
