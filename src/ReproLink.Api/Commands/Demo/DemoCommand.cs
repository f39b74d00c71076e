using System.CommandLine;
using System.CommandLine.Parsing;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Composition;
using ReproLink.Records;

namespace ReproLink.Api.Commands.Demo;

/// <summary>Runs the service over an invented herd.</summary>
internal static class DemoCommand
{
    private const string Description = """
        Try the service with an invented herd of about 400 cows and heifers.

        It listens on this machine only and needs no key. The herd is dated around today; it lives in a temporary file that is deleted at the end, unless --database names one.

        Examples:
          ReproLink.Api demo
          ReproLink.Api demo --port 8080 --clock 2026-10-05T12:00:00Z
          ReproLink.Api demo --print-only
        """;

    private const int DefaultPort = 5080;

    public static Command Make()
    {
        var database = new Option<string>("--database") { Description = "Keep the herd in this file [default: a temporary file]", HelpName = "FILE" };
        var urls = new Option<string>("--urls") { Description = "One loopback address [default: http://127.0.0.1:5080, or the next free port]", HelpName = "URL" };
        var port = new Option<int>("--port") { Description = "Port; the next free one when it is taken", DefaultValueFactory = _ => DefaultPort, HelpName = "PORT" };
        var clock = new Option<Instant?>("--clock") { Description = "Where the clock stands, e.g. 2026-10-05T12:00:00Z [default: it runs]", HelpName = "INSTANT", CustomParser = ReadInstant };
        var printOnly = new Option<bool>("--print-only") { Description = "Load the herd, print the greeting and end" };
        port.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && result.GetValueOrDefault<int>() is < 1 or > 65535)
            {
                result.AddError("--port: a number from 1 to 65535.");
            }
        });
        var command = new ExplainedCommand("demo", Description) { database, urls, port, clock, printOnly };
        command.SetAction((result, _) => Run(
            result.GetValue(database),
            result.GetValue(urls) is { } url ? Loopback.Read(url).GetLeftPart(UriPartial.Authority) : $"http://127.0.0.1:{Loopback.FreePort(result.GetValue(port))}",
            result.GetValue(clock),
            result.GetValue(printOnly)));
        return command;
    }

    private static async Task<int> Run(string? database, string address, Instant? clock, bool printOnly)
    {
        var file = database ?? Path.Combine(Path.GetTempPath(), $"reprolink-demo-{Environment.ProcessId}-{Path.GetRandomFileName()}.db");
        try
        {
            await using var app = ApiHost.Build(
                ["--urls", address, "--Logging:LogLevel:Default=Warning"], new ApiHostOptions { Database = file, Demo = true, Clock = clock });
            await Serve(app, address, printOnly);
            return CommandLine.Done;
        }
        catch (Exception refused) when (StoreFiles.IsStoreProblem(refused))
        {
            throw new CommandException(refused.Message, CommandLine.Failed);
        }
        finally
        {
            if (database is null)
            {
                Delete(file);
            }
        }
    }

    private static async Task Serve(WebApplication app, string address, bool printOnly)
    {
        var store = app.Services.GetRequiredService<Store>();
        var now = app.Services.GetRequiredService<IClock>().GetCurrentInstant();
        var herd = await Herd(store, now);
        if (!printOnly)
        {
            await app.StartAsync();
        }

        Console.WriteLine(DemoGreeting.Text(address, store.Views.Current(herd, now)));
        if (!printOnly)
        {
            Console.WriteLine("Ctrl-C ends the demo.");
            await app.WaitForShutdownAsync();
        }
    }

    // Real herds are never served without a key: a database that holds any is refused.
    private static async Task<Herd> Herd(Store store, Instant now)
    {
        if (store.Herds.All().FirstOrDefault(h => h.Location != DemoHerd.Location) is { } other)
        {
            throw new CommandException($"The database holds {other.Name} ({Locations.Text(other.Location)}): the demo, which needs no key, opens only a new file or one of its own.");
        }

        return store.Herds.Find(DemoHerd.Location) ?? await new DemoHerd(store, now).Load();
    }

    private static Instant? ReadInstant(ArgumentResult result)
    {
        var parsed = InstantPattern.ExtendedIso.Parse(result.Tokens[0].Value);
        if (parsed.Success)
        {
            return parsed.Value;
        }

        result.AddError($"--clock {result.Tokens[0].Value}: write an instant such as 2026-10-05T12:00:00Z.");
        return null;
    }

    private static void Delete(string file)
    {
        foreach (var part in new[] { file, file + "-wal", file + "-shm" })
        {
            File.Delete(part);
        }
    }
}
