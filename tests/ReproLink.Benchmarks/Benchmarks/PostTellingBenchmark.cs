using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>One fact a request, while a receiver is told of it and while nobody is.</summary>
internal static class PostTellingBenchmark
{
    private const double Budget = 0.9;

    public static async Task Run(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.ListAnimals);
        var received = 0;
        // The receiver runs on the same processors: its work is counted against us.
        await using var host = await RunningHost.Start(file.Path, app => app.MapPost("/receiver", () =>
        {
            Interlocked.Increment(ref received);
            return Results.NoContent();
        }), allowPrivateWebhooks: true);
        var webhooks = RunningHost.HerdPath + "/webhooks";
        await host.Post(webhooks, Encoding.UTF8.GetBytes($$"""{"url":"{{new Uri(host.Client.BaseAddress!, "/receiver")}}"}"""));
        var (sent, messages, facts) = (0, 0, 0);
        var (told, untold) = await Rounds.Medians(sizes.Rounds, () => Measure("active"), () => Measure("paused"));
        report.AtLeast(Budget, told / untold, $"one fact a request: {told:0} requests/s while a webhook is told, {untold:0} while it is paused");
        report.Note($"{facts} facts were told in {messages} messages");

        async Task<double> Measure(string state)
        {
            await host.Patch($"{webhooks}/1", Encoding.UTF8.GetBytes($$"""{"state":"{{state}}"}"""));
            var (before, first) = (Volatile.Read(ref received), sent);
            var result = await Load.Run(sizes.Load, _ => host.Post(RunningHost.HerdPath + "/facts", Body(Interlocked.Increment(ref sent))));
            if (state == "active")
            {
                messages += Volatile.Read(ref received) - before;
                facts += sent - first;
            }

            return result.PerSecond;
        }

        byte[] Body(int number) => Encoding.UTF8.GetBytes(
            $$"""[{"sourceId":"told-{{number}}","kind":"oestrus","animal":"{{MadeHerd.NameOf(number % sizes.ListAnimals)}}","date":"{{file.Today}}"}]""");
    }
}
