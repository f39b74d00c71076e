using System.Text;
using System.Text.Json.Nodes;
using ReproLink.Api.Commands.Demo;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Records;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>A herd taken out and put back over HTTP, against reading and appending the same facts the ordinary way.</summary>
internal static class ZipBenchmark
{
    private const double Budget = 1;
    private const int Page = 1_000;

    public static async Task Run(Report report, Sizes sizes)
    {
        using (var demo = await HerdFile.Demo())
        {
            await Measure(report, sizes.Rounds, demo, DemoHerd.Location, "demo herd");
        }

        using var made = await HerdFile.With(sizes.ListAnimals);
        await Measure(report, Math.Min(sizes.Rounds, 3), made, HerdFile.Location, FormattableString.Invariant($"{sizes.ListAnimals} animals"));
    }

    private static async Task Measure(Report report, int rounds, HerdFile file, LocationKey location, string what)
    {
        await using var host = await RunningHost.Start(file.Path);
        var path = $"/locations/{location.Scheme}/{location.Id}";
        var zip = await host.Get(path + "/export");
        var drafts = Facts(host.Store, host.Store.Herds.Find(location)!);
        var (export, read) = await Rounds.Medians(
            rounds, () => Rounds.Milliseconds(() => host.Get(path + "/export")), () => Rounds.Milliseconds(() => Read(host, path)));
        report.AtMost(Budget, export / read, $"{what}, {drafts.Count} facts, taken out: {export:0} ms for {zip.Length / 1e6:0.00} MB; the facts read page by page {read:0} ms, times");
        var made = 0;
        var (import, append) = await Rounds.Medians(rounds, () => Import(host, zip, made++), () => Append(host.Store, drafts, file, made++));
        report.AtMost(Budget, import / append, $"{what}, put back: {import:0} ms; the facts appended by the thousand in process {append:0} ms, times");
    }

    private static List<FactDraft> Facts(Store store, Herd herd)
    {
        var drafts = new List<FactDraft>();
        string? after = null;
        do
        {
            var page = store.Facts.List(herd, null, after, Page, includeWithdrawn: true);
            drafts.AddRange(page.Items.Select(f => new FactDraft(f.Animal, f.Fact)));
            after = page.Next;
        }
        while (after is not null);

        return drafts;
    }

    private static async Task Read(RunningHost host, string path)
    {
        string? next = null;
        do
        {
            var page = JsonNode.Parse(await host.Get($"{path}/facts?limit={Page}{(next is null ? "" : "&after=" + next)}"))!;
            next = (string?)page["next"];
        }
        while (next is not null);
    }

    private static async Task<double> Import(RunningHost host, byte[] zip, int number)
    {
        var path = $"/locations/back/{number}";
        await host.Put(path, Encoding.UTF8.GetBytes("""{"name":"Back","timeZone":"Europe/London"}"""));
        return await Rounds.Milliseconds(() => host.Post(path + "/import", zip, "application/zip"));
    }

    private static async Task<double> Append(Store store, List<FactDraft> drafts, HerdFile file, int number)
    {
        var herd = await store.Herds.Put(new LocationKey("appended", FormattableString.Invariant($"{number}")), "Appended", HerdFile.Zone.Id, file.Now);
        return await Rounds.Milliseconds(async () =>
        {
            foreach (var batch in drafts.Chunk(Page))
            {
                await store.Facts.Append(herd, batch, file.Now);
            }
        });
    }
}
