using System.Text;
using NodaTime;

namespace ReproLink.Records.Tests;

public sealed class KeyTests
{
    [Fact]
    public async Task Authenticate_TheSecret_IsTheKeyAndNothingElseIs()
    {
        await using var temp = await TempStore.WithHerd();
        var (secret, key) = await temp.Store.Keys.Create("herd app", KeyRole.Exchange, [TempStore.NorthRidge], TempStore.Noon);
        var found = temp.Store.Keys.Authenticate(secret)!;
        Assert.Equal((key.Id, "herd app", KeyRole.Exchange), (found.Id, found.Name, found.Role));
        Assert.Equal([TempStore.NorthRidge], found.Locations!);
        Assert.Null(temp.Store.Keys.Authenticate(secret[..^1]));
        Assert.Null(temp.Store.Keys.Authenticate(secret.ToUpperInvariant()));
        Assert.Null(temp.Store.Keys.Authenticate(""));
        var (everywhere, _) = await temp.Store.Keys.Create("manager", KeyRole.Manager, null, TempStore.Noon);
        Assert.Null(temp.Store.Keys.Authenticate(everywhere)!.Locations);
        var (nowhere, _) = await temp.Store.Keys.Create("none", KeyRole.Reader, [], TempStore.Noon);
        Assert.Empty(temp.Store.Keys.Authenticate(nowhere)!.Locations!);
    }

    [Fact]
    public async Task The_secret_is_nowhere_in_the_files()
    {
        await using var temp = await TempStore.WithHerd();
        var (secret, _) = await temp.Store.Keys.Create("herd app", KeyRole.Exchange, null, TempStore.Noon);
        Assert.Matches("^rl_[a-z2-7]{52}$", secret);
        await temp.Store.DisposeAsync();
        var files = Directory.GetFiles(Path.GetDirectoryName(temp.Path)!);
        Assert.Contains(files, f => Contains(f, "herd app"));
        Assert.DoesNotContain(files, f => Contains(f, secret) || Contains(f, secret[3..]));

        static bool Contains(string file, string text) => File.ReadAllBytes(file).AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0;
    }

    [Fact]
    public async Task Revoke_EndsItAndFreesTheName()
    {
        await using var temp = await TempStore.WithHerd();
        var (old, _) = await temp.Store.Keys.Create("lab", KeyRole.Exchange, null, TempStore.Noon);
        await Assert.ThrowsAsync<KeyNameTakenException>(() => temp.Store.Keys.Create("lab", KeyRole.Reader, null, TempStore.Noon));
        Assert.NotNull(temp.Store.Keys.Authenticate(old));
        Assert.True(await temp.Store.Keys.Revoke("lab", TempStore.Noon + Duration.FromHours(1)));
        Assert.False(await temp.Store.Keys.Revoke("lab", TempStore.Noon));
        Assert.Null(temp.Store.Keys.Authenticate(old));
        var (next, _) = await temp.Store.Keys.Create("lab", KeyRole.Reader, null, TempStore.Noon);
        Assert.Equal(KeyRole.Reader, temp.Store.Keys.Authenticate(next)!.Role);
        Assert.Equal([TempStore.Noon + Duration.FromHours(1), null], temp.Store.Keys.List().Select(k => k.Revoked));
    }

    [Fact]
    public async Task A_key_made_or_revoked_by_another_process_is_noticed()
    {
        await using var temp = await TempStore.WithHerd();
        await using var other = temp.Open();
        var (secret, _) = await other.Keys.Create("cli", KeyRole.Manager, null, TempStore.Noon);
        Assert.NotNull(temp.Store.Keys.Authenticate(secret));
        await other.Keys.Revoke("cli", TempStore.Noon);
        Assert.Null(temp.Store.Keys.Authenticate(secret));
    }
}
