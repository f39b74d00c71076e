using System.Text;
using System.Text.Json;
using ReproLink.Calendar.Dates;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Web.Work;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>
/// Every page against the API call that tells programs the same. A fact is posted and the herd folded before each, so that neither
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
        foreach (var (name, page, call) in new[]
        {
            ("this week", "/week", $"/bleed-list?from={today}&to={today + 6}"),
            ("today's work", "/today", $"/work-calendar?from={today}&to={today}"),
            ("calendar", "/calendar", $"/work-calendar?from={today}&to={WorkGrid.LastDay(today, 6)}"),
            ("animal", $"/animals/{MadeHerd.NameOf(0)}", $"/animals/{MadeHerd.NameOf(0)}/timeline"),
            ("figures", "/figures", "/figures"),
        })
        {
            var bytes = ((await host.Get(Page + page)).Length, (await host.Get(RunningHost.HerdPath + call)).Length);
            var (ours, beneath) = await Rounds.Medians(sizes.Rounds, () => Ask(host, today, Page + page), () => Ask(host, today, RunningHost.HerdPath + call));
            report.AtMost(Budget, ours / beneath, $"page {name}: {ours:0.0} ms, {bytes.Item1 / 1e3:0} KB; {call.Split('?')[0]} {beneath:0.0} ms, {bytes.Item2 / 1e3:0} KB; {sizes.ListAnimals} animals");
        }
    }

    private static async Task<double> Ask(RunningHost host, Day today, string path)
    {
        var oestrus = new[] { new { sourceId = $"page-{Guid.NewGuid():N}", kind = "oestrus", animal = MadeHerd.NameOf(1), date = today.ToString() } };
        await host.Post(RunningHost.HerdPath + "/facts", JsonSerializer.SerializeToUtf8Bytes(oestrus));
        await host.Get($"{RunningHost.HerdPath}/animals/{MadeHerd.NameOf(1)}/test-window");
        return await Rounds.Milliseconds(() => host.Get(path));
    }
}
