using System.Net.Http.Headers;
using ReproLink.Client;

namespace TypedClient;

/// <summary>
/// A laboratory's program in front of a herd: sees who is due, posts what the blood said, reads what each line decided and
/// the work that came of it.
/// </summary>
internal static class Program
{
    private const string Usage = """
        dotnet run --project docs/samples/typed-client -- LOCATION

        LOCATION is the address of a location, for the demo http://127.0.0.1:5080/locations/demo/larch-hollow. REPROLINK_KEY in the
        environment is the key to call the service with; the demo needs none.
        """;

    public static async Task<int> Main(string[] args)
    {
        if (args.Length != 1 || !Uri.TryCreate(args[0], UriKind.Absolute, out var address) || address.Segments is not ["/", "locations/", var scheme, var id])
        {
            await Console.Error.WriteLineAsync(Usage);
            return 2;
        }

        using var http = new HttpClient { BaseAddress = new Uri(address, "/") };
        if (Environment.GetEnvironmentVariable("REPROLINK_KEY") is { Length: > 0 } key)
        {
            http.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        }

        try
        {
            await Walk(new Herd(new ReproLinkClient(http), Uri.UnescapeDataString(scheme.TrimEnd('/')), Uri.UnescapeDataString(id.TrimEnd('/'))));
            return 0;
        }
        catch (ApiException<ProblemBody> refused)
        {
            Printing.Problem(refused.Result);
            return 1;
        }
    }

    private static async Task Walk(Herd herd)
    {
        var list = await herd.ToBleed();
        Console.WriteLine($"{list.Herd} on {list.AsOf:O}: {list.Days.Sum(day => day.Animals.Count)} to bleed until {list.To:O}");

        var results = BloodResults.Of(list);
        var run = $"typed-client-{Guid.NewGuid():N}";
        var answered = await herd.Post(results, run);
        Printing.Answers(answered);

        // The answer may have been lost on the way: with the same key the same request is safe to send again, and answers the same.
        var again = await herd.Post(results, run);
        Console.WriteLine(Printing.Facts(again).SequenceEqual(Printing.Facts(answered)) ? "sent again: the same answer" : "sent again: another answer");

        // Another request with a key that was used is refused; so is a period that ends before it begins.
        await Printing.Refusal(() => herd.Post(results.Take(1), run));
        await Printing.Refusal(() => herd.Work(list.AsOf, list.AsOf.AddDays(-1)));

        Printing.Work(await herd.Work(list.AsOf, list.AsOf.AddDays(14)), [.. answered.Results.Select(line => line.Animal).OfType<string>()]);
    }
}
