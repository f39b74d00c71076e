using System.CommandLine;
using NodaTime;
using ReproLink.Api.Pages;

namespace ReproLink.Api.Commands;

/// <summary>A new link for a person who is to have a key of her own.</summary>
internal static class SignInLinkCommand
{
    private const int MostHours = 24 * 30;

    public static Command Make(Option<string> database)
    {
        var role = KeysCommand.Role();
        var locations = KeysCommand.Seen();
        var address = new Option<string>("--address") { Description = "Where the service is reached", HelpName = "URL", DefaultValueFactory = _ => "http://localhost:5000" };
        var hours = new Option<int>("--hours") { Description = "How long it opens", HelpName = "HOURS", DefaultValueFactory = _ => WelcomePages.UsualHours };
        hours.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && result.GetValueOrDefault<int>() is < 1 or > MostHours)
            {
                result.AddError($"--hours: a number from 1 to {MostHours}.");
            }
        });
        var command = new Command("link", "Print a link that lets a person in once and makes her a key.") { role, locations, address, hours };
        command.SetAction(async result =>
        {
            var seen = (result.GetValue(locations) ?? []).Select(Locations.Read).ToArray();
            if (!Uri.TryCreate(result.GetRequiredValue(address), UriKind.Absolute, out var at) || at.Scheme is not ("http" or "https"))
            {
                throw new CommandException($"--address {result.GetRequiredValue(address)}: write an address such as https://farm.example.");
            }

            await using var store = StoreFiles.Open(StoreFiles.Path(result.GetValue(database)), mustExist: false);
            var lasts = Duration.FromHours(result.GetValue(hours));
            var secret = await store.SignInLinks.Create(
                KeysCommand.RoleOf(result.GetRequiredValue(role)), seen.Length == 0 ? null : seen, SystemClock.Instance.GetCurrentInstant(), lasts);
            Console.WriteLine(WelcomePages.Link(at.GetLeftPart(UriPartial.Authority), secret));
            Console.Error.WriteLine($"It opens once, within {result.GetValue(hours)} hours. Whoever opens it gets the key: send it to nobody else.");
            return CommandLine.Done;
        });
        return command;
    }
}
