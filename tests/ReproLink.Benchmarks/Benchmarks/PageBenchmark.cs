using System.Text;
using System.Text.Json;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Calendar.Dates;
using ReproLink.Web.Work;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>
/// Every page against the API calls that tell programs the same. A fact is posted and the herd folded before each, so that neither
/// answers from what it wrote before; there is no daily limit, so that the lists are as long as they get.
/// </summary>
internal static class PageBenchmark
{
    // "A few times": a page carries the words, links and reasons that a program does without.
    private const double Budget = 3;

    private const string Programme = """{"inForceFrom":"2020-01-01","week":{"maxTubesPerDay":10000}}""";

    private static readonly string Page = $"/herds/{HerdFile.Location.Scheme}/{HerdFile.Location.Id}";

    public static async Task Run(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.ListAnimals);
        await using var host = await RunningHost.Start(file.Path);
        await host.Put(RunningHost.HerdPath + "/programme", Encoding.UTF8.GetBytes(Programme));
        var today = file.Today;
        // The veterinarian's calendar stands beside the calendar as it was known at the last visit, hence two calls.
        var end = WorkGrid.LastDay(today, 6);
        foreach (var (name, page, calls) in new (string, string, string[])[]
        {
            ("this week", "/week", [$"/bleed-list?from={today}&to={today + 6}"]),
            ("today's work", "/today", [$"/work-calendar?from={today}&to={today}"]),
            ("calendar", "/calendar", [$"/work-calendar?from={today}&to={end}", $"/work-calendar?from={today}&to={end}&include=cancelled&knownAt={file.Now}"]),
            ("animal", $"/animals/{MadeHerd.NameOf(0)}", [$"/animals/{MadeHerd.NameOf(0)}/timeline"]),
            ("figures", "/figures", ["/figures"]),
        })
        {
            var asked = calls.Select(call => RunningHost.HerdPath + call).ToArray();
            var (ours, beneath) = await Rounds.Medians(sizes.Rounds, () => Ask(host, today, Page + page), () => Ask(host, today, asked));
            var size = (await host.Get(Page + page)).Length;
            report.AtMost(Budget, ours / beneath, $"page {name}: {ours:0.0} ms, {size / 1e3:0} KB; {string.Join(" and ", calls.Select(c => c.Split('?')[0]))} {beneath:0.0} ms; {sizes.ListAnimals} animals");
        }
    }

    private static async Task<double> Ask(RunningHost host, Day today, params string[] paths)
    {
        var oestrus = new[] { new { sourceId = $"page-{Guid.NewGuid():N}", kind = "oestrus", animal = MadeHerd.NameOf(1), date = today.ToString() } };
        await host.Post(RunningHost.HerdPath + "/facts", JsonSerializer.SerializeToUtf8Bytes(oestrus));
        await host.Get($"{RunningHost.HerdPath}/animals/{MadeHerd.NameOf(1)}/test-window");
        return await Rounds.Milliseconds(async () =>
        {
            foreach (var path in paths)
            {
                await host.Get(path);
            }
        });
    }
}
