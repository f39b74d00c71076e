namespace ReproLink.Api.Tests.Support;

/// <summary>The service as it runs on a farm: nobody is let in without a key, and the clock is the machine's.</summary>
public sealed class KeyedHost : ApiHostFixture
{
    public KeyedHost() => Environment = "Production";
}
