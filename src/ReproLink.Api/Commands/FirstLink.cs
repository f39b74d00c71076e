using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using NodaTime;
using ReproLink.Api.Composition;
using ReproLink.Api.Pages;
using ReproLink.Records;

namespace ReproLink.Api.Commands;

/// <summary>What a service that knows no key yet says once it listens: a link by which the first person comes in.</summary>
internal static class FirstLink
{
    public static async Task Print(WebApplication app)
    {
        var store = app.Services.GetRequiredService<Store>();
        if (app.Environment.IsEnvironment(TestingEnvironment.Name) || store.Keys.List().Count > 0)
        {
            return;
        }

        var now = app.Services.GetRequiredService<IClock>().GetCurrentInstant();
        var secret = await store.SignInLinks.Create(KeyRole.Manager, null, now, Duration.FromHours(WelcomePages.UsualHours));
        // Written to the console alone: a log is kept, and read by others.
        Console.WriteLine($"""

            Nobody has a key yet. Open this link once, within {WelcomePages.UsualHours} hours, to make yours (a manager's):

              {WelcomePages.Link(Address(app), secret)}

            For another one: ReproLink.Api keys link --role manager

            """);
    }

    // What listens on every address is reached from this machine as localhost.
    private static string Address(WebApplication app)
    {
        var address = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault() ?? "http://localhost:5000";
        foreach (var any in (string[])["0.0.0.0", "[::]", "*", "+"])
        {
            address = address.Replace($"//{any}:", "//localhost:", StringComparison.Ordinal);
        }

        return address.TrimEnd('/');
    }
}
