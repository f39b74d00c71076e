using NodaTime;
using ReproLink.Api.Commands.Demo;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Benchmarks.Herds;

/// <summary>A store file with invented herds, in a folder of its own that goes with it.</summary>
internal sealed class HerdFile : IDisposable
{
    private const int AnimalsAnAppend = 1_000;
    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-benchmarks-").FullName;

    public HerdFile()
    {
        Now = SystemClock.Instance.GetCurrentInstant();
        Today = Day.From(Now.InZone(Zone).Date);
    }

    public static readonly LocationKey Location = new("bench", "1");

    public static DateTimeZone Zone => DateTimeZoneProviders.Tzdb["America/Chicago"];

    public Instant Now { get; }

    public Day Today { get; }

    public string Path => System.IO.Path.Combine(_folder, "herds.db");

    public string Beside(string name) => System.IO.Path.Combine(_folder, name);

    public static async Task<HerdFile> With(int animals)
    {
        var file = new HerdFile();
        await file.Grow(0, animals);
        return file;
    }

    /// <summary>The invented herd of the demo.</summary>
    public static async Task<HerdFile> Demo()
    {
        var file = new HerdFile();
        await using var store = Store.Open(file.Path);
        await new DemoHerd(store, file.Now).Load();
        return file;
    }

    /// <summary>Adds the animals from a number to below another.</summary>
    public async Task<Herd> Grow(int from, int to)
    {
        await using var store = Store.Open(Path);
        var herd = await store.Herds.Put(Location, "North Ridge", Zone.Id, Now);
        for (var first = from; first < to; first += AnimalsAnAppend)
        {
            await store.Facts.Append(herd, Drafts(first, Math.Min(first + AnimalsAnAppend, to)), Now);
        }

        return herd;
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private List<FactDraft> Drafts(int from, int to)
    {
        var drafts = new List<FactDraft>((to - from) * MadeHerd.FactsAnAnimal);
        for (var animal = from; animal < to; animal++)
        {
            var name = MadeHerd.NameOf(animal);
            drafts.AddRange(MadeHerd.Facts(animal, Today).Select(fact => new FactDraft(name, fact)));
        }

        return drafts;
    }
}
