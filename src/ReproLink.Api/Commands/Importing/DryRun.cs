using ReproLink.Records;

namespace ReproLink.Api.Commands.Importing;

/// <summary>Where a dry run is tried: the database itself, or one that goes with it, so that not even an empty herd is left behind.</summary>
internal sealed class DryRun : IAsyncDisposable
{
    private readonly string? _folder;

    private DryRun(Store store, string? folder) => (Store, _folder) = (store, folder);

    public Store Store { get; }

    public static async Task<DryRun> Of(string database, IEnumerable<LocationKey> locations)
    {
        if (File.Exists(database))
        {
            var store = StoreFiles.Open(database, mustExist: true);
            if (locations.All(l => store.Herds.Find(l) is not null))
            {
                return new DryRun(store, null);
            }

            await store.DisposeAsync();
        }

        var folder = Directory.CreateTempSubdirectory("reprolink-dry-run-").FullName;
        return new DryRun(Store.Open(Path.Combine(folder, "herds.db")), folder);
    }

    public async ValueTask DisposeAsync()
    {
        await Store.DisposeAsync();
        if (_folder is not null)
        {
            Directory.Delete(_folder, recursive: true);
        }
    }
}
