using System.CommandLine;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Records;

namespace ReproLink.Api.Commands;

/// <summary>The callers' keys.</summary>
internal static class KeysCommand
{
    private const string Description = """
        Make, list and revoke the keys with which programs and people call the service.

        Examples:
          ReproLink.Api keys create herd-app --role exchange --location local/north-ridge
          ReproLink.Api keys create "Dr Hale" --role veterinarian
          ReproLink.Api keys link --role veterinarian --address https://farm.example
          ReproLink.Api keys list
          ReproLink.Api keys revoke herd-app
        """;

    public static Command Make()
    {
        var database = StoreFiles.Option();
        database.Recursive = true;
        return new ExplainedCommand("keys", Description) { database, Create(database), SignInLinkCommand.Make(database), List(database), Revoke(database) };
    }

    private static Command Create(Option<string> database)
    {
        var name = new Argument<string>("NAME") { Description = "Who will use it; the default source of the facts it sends" };
        var role = Role();
        var locations = Seen();
        var command = new Command("create", "Make a key. Its secret is printed once and stored nowhere.") { name, role, locations };
        command.SetAction(async result =>
        {
            var seen = (result.GetValue(locations) ?? []).Select(Locations.Read).ToArray();
            var wanted = RoleOf(result.GetRequiredValue(role));
            await using var store = StoreFiles.Open(StoreFiles.Path(result.GetValue(database)), mustExist: false);
            return await Create(store, result.GetRequiredValue(name), wanted, seen);
        });
        return command;
    }

    /// <summary>The option that names a role.</summary>
    internal static Option<string> Role()
    {
        var role = new Option<string>("--role") { Description = "What it may do", Required = true };
        role.AcceptOnlyFromAmong([.. Enum.GetValues<KeyRole>().Select(Caller.RoleWord)]);
        return role;
    }

    /// <summary>The option that names locations.</summary>
    internal static Option<string[]> Seen() => new("--location") { Description = "A location it may see, scheme/id; repeat for more [default: all]", HelpName = "scheme/id" };

    /// <summary>The role of a word.</summary>
    internal static KeyRole RoleOf(string word) => Enum.GetValues<KeyRole>().First(r => Caller.RoleWord(r) == word);

    private static async Task<int> Create(Store store, string name, KeyRole role, LocationKey[] locations)
    {
        try
        {
            var (secret, _) = await store.Keys.Create(name, role, locations.Length == 0 ? null : locations, SystemClock.Instance.GetCurrentInstant());
            Console.WriteLine(secret);
            Console.Error.WriteLine($"Key of '{name}' ({Caller.RoleWord(role)}). Keep it: it is not shown again. Send it as `Authorization: Bearer KEY`.");
            return CommandLine.Done;
        }
        catch (KeyNameTakenException taken)
        {
            throw new CommandException(taken.Message, CommandLine.Failed);
        }
    }

    private static Command List(Option<string> database)
    {
        var command = new Command("list", "List the keys, without their secrets.");
        command.SetAction(async result =>
        {
            await using var store = StoreFiles.Open(StoreFiles.Path(result.GetValue(database)), mustExist: true);
            foreach (var key in store.Keys.List())
            {
                var places = key.Locations is null ? "all locations" : string.Join(' ', key.Locations.Select(Locations.Text));
                Console.WriteLine($"{key.Name}\t{Caller.RoleWord(key.Role)}\t{places}\tmade {key.Created}{(key.Revoked is { } at ? $"\trevoked {at}" : "")}");
            }

            return CommandLine.Done;
        });
        return command;
    }

    private static Command Revoke(Option<string> database)
    {
        var name = new Argument<string>("NAME") { Description = "The key's name" };
        var command = new Command("revoke", "Revoke a key: from now on it opens nothing.") { name };
        command.SetAction(async result =>
        {
            var revoked = result.GetRequiredValue(name);
            await using var store = StoreFiles.Open(StoreFiles.Path(result.GetValue(database)), mustExist: true);
            return await store.Keys.Revoke(revoked, SystemClock.Instance.GetCurrentInstant())
                ? Said($"The key of '{revoked}' is revoked.")
                : throw new CommandException($"No key named '{revoked}' holds. `ReproLink.Api keys list` shows them.", CommandLine.Failed);
        });
        return command;
    }

    private static int Said(string text)
    {
        Console.WriteLine(text);
        return CommandLine.Done;
    }
}
