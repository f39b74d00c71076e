using Microsoft.Data.Sqlite;
using NodaTime;

namespace ReproLink.Records.Tests;

/// <summary>A store in a real file of its own, and a herd in it.</summary>
public sealed class TempStore : IAsyncDisposable
{
    public static readonly Instant Noon = Instant.FromUtc(2026, 10, 5, 12, 0);
    public static readonly LocationKey NorthRidge = new("herd", "north-ridge");
    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-records-").FullName;

    private TempStore() => Store = Open();

    public string Path => System.IO.Path.Combine(_folder, "store.db");

    public Store Store { get; private set; }

    public Herd Herd { get; private set; } = null!;

    public static async Task<TempStore> WithHerd()
    {
        var temp = new TempStore();
        temp.Herd = await temp.Store.Herds.Put(NorthRidge, "North Ridge", "America/Chicago", Noon);
        return temp;
    }

    /// <summary>A second store on the same file: nothing in its memory, everything read afresh.</summary>
    public Store Open() => Store.Open(Path, new StoreOptions { ForeignWritesAfter = Duration.Zero });

    public string File(string name) => System.IO.Path.Combine(_folder, name);

    public async Task Reopen()
    {
        await Store.DisposeAsync();
        Store = Open();
    }

    /// <summary>The file as any other program sees it.</summary>
    public SqliteConnection Raw()
    {
        var connection = new SqliteConnection($"Data Source={Path};Pooling=False");
        connection.Open();
        return connection;
    }

    public async ValueTask DisposeAsync()
    {
        await Store.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }
}
