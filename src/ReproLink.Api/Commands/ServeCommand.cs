using System.CommandLine;
using ReproLink.Api.Composition;
using ReproLink.Api.Limits;
using ReproLink.Records;

namespace ReproLink.Api.Commands;

/// <summary>Runs the service.</summary>
internal static class ServeCommand
{
    public const string Name = "serve";

    private const string AllowPrivateWebhooks = "--allow-private-webhooks";

    private const string Description = """
        Serve the herds of a database over HTTP (the default command).

        Examples:
          ReproLink.Api serve
          ReproLink.Api serve --database /var/lib/reprolink/herds.db --urls http://127.0.0.1:5080

        Settings may be given as well, e.g. --Limits:RequestsPerMinute=6000, --Metrics:Open=true, --Logging:Console:FormatterName=json;
        docs/operations.md lists them.
        """;

    /// <summary>Settings the host takes on the command line, besides those with a section (`Section:Key`).</summary>
    private static readonly HashSet<string> HostSettings = new(
        ["urls", "environment", "contentRoot", "applicationName", "webRoot", "database", "clock", "http_ports", "https_ports", "allowedHosts", "detailedErrors", "shutdownTimeoutSeconds", "hostingStartupAssemblies", "suppressStatusMessages"],
        StringComparer.OrdinalIgnoreCase);

    public static Command Make(string[] args)
    {
        var serve = new ExplainedCommand(Name, Description);
        MakeDefault(serve, args);
        return serve;
    }

    /// <summary>Makes serving what a command does.</summary>
    public static void MakeDefault(Command command, string[] args)
    {
        // The host reads these itself, as settings; here they are declared so that they are explained and checked.
        command.Add(new Option<string>("--database") { Description = "Database file [default: reprolink.db in this folder, or the environment variable Database]", HelpName = "FILE" });
        command.Add(new Option<string>("--urls") { Description = "Addresses to listen on, separated by semicolons", HelpName = "URLS" });
        command.Add(new Option<string>("--clock") { Description = "Where the clock stands; in the Testing environment only", HelpName = "INSTANT" });
        var allowPrivate = new Option<bool>(AllowPrivateWebhooks) { Description = "Let webhooks name plain http and addresses of private networks and of this machine" };
        command.Add(allowPrivate);
        command.TreatUnmatchedTokensAsErrors = false;
        command.SetAction((result, _) => Serve(result, result.GetValue(allowPrivate), args));
    }

    private static async Task<int> Serve(ParseResult result, bool allowPrivateWebhooks, string[] args)
    {
        if (Unknown(result.UnmatchedTokens) is { } unknown)
        {
            throw new CommandException(unknown);
        }

        // The host's reader of settings knows no switch without a value.
        string[] settings = [.. args.SkipWhile(a => a == Name).Where(a => a != AllowPrivateWebhooks)];
        await using var app = Build(settings, allowPrivateWebhooks);
        await Start(app);
        await FirstLink.Print(app);
        await app.WaitForShutdownAsync();
        return CommandLine.Done;
    }

    private static WebApplication Build(string[] settings, bool allowPrivateWebhooks)
    {
        try
        {
            return ApiHost.Build(settings, new ApiHostOptions { AllowPrivateWebhooks = allowPrivateWebhooks });
        }
        catch (InvalidOperationException refused) when (refused is BadSettingException || refused.Message.Contains("clock", StringComparison.OrdinalIgnoreCase))
        {
            throw new CommandException(refused.Message);
        }
    }

    private static async Task Start(WebApplication app)
    {
        try
        {
            // Asked for before anything listens, so that a bad path is one clear line.
            app.Services.GetRequiredService<Store>();
            await app.StartAsync();
        }
        catch (IOException busy) when (busy.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException)
        {
            throw new CommandException($"{busy.Message} Choose another address with --urls.", CommandLine.Failed);
        }
        catch (Exception refused) when (StoreFiles.IsStoreProblem(refused))
        {
            throw new CommandException($"The database cannot be opened: {refused.Message}", CommandLine.Failed);
        }
    }

    /// <summary>What is wrong with tokens that no option took; null when the host takes them all.</summary>
    private static string? Unknown(IReadOnlyList<string> tokens)
    {
        for (var i = 0; i < tokens.Count; i++)
        {
            var token = tokens[i];
            if (!token.StartsWith("--", StringComparison.Ordinal))
            {
                return token.StartsWith('-') ? UnknownOption(token) : $"There is no command '{token}'. Commands: serve, demo, import, export, keys, backup.";
            }

            var at = token.IndexOf('=', StringComparison.Ordinal);
            var key = at < 0 ? token[2..] : token[2..at];
            // A host made in a test names a section too (--Limits=) beside what stands in it.
            var isSection = key.Contains(':', StringComparison.Ordinal) || tokens.Any(t => t.StartsWith($"--{key}:", StringComparison.Ordinal));
            if (!isSection && !HostSettings.Contains(key))
            {
                return UnknownOption("--" + key);
            }

            // Without "=" the value is the next token.
            i += at < 0 ? 1 : 0;
        }

        return null;
    }

    private static string UnknownOption(string option) => $"There is no option '{option}'. `ReproLink.Api serve --help` lists them.";
}
