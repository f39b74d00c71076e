using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Mvc;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Reading;
using ReproLink.Records;
using ReproLink.Web.Pages;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>A herd made on the pages: a name and a time zone. Its address is made from the name.</summary>
internal static class FirstHerdPages
{
    private const string Scheme = "local";

    public static void MapFirstHerd(this IEndpointRouteBuilder pages) => pages.MapPost("/herds", Post);

    /// <summary>What the page of the herds shows.</summary>
    public static object Home(IReadOnlyList<(string Name, string Path)> herds, Caller caller, string? name = null, string? zone = null, IReadOnlyDictionary<string, string>? problems = null) => new
    {
        Herds = herds,
        // A key for some locations only makes none.
        MayCreate = caller.Can(Permissions.Manage) && caller.Locations is null,
        Name = name ?? "",
        Zone = zone ?? DateTimeZoneProviders.Tzdb.GetSystemDefault().Id,
        Zones = (IReadOnlyList<string>)[.. DateTimeZoneProviders.Tzdb.Ids.Where(id => id.Contains('/', StringComparison.Ordinal) && !id.StartsWith("Etc/", StringComparison.Ordinal))],
        Problems = problems ?? new Dictionary<string, string>(),
    };

    private static async Task<IResult> Post(
        HttpContext context, Store store, PageSession session, IClock clock, [FromForm] string? name, [FromForm] string? zone)
    {
        if (session.CallerOf(context) is not { } caller)
        {
            return SignInPages.First(context);
        }

        if (!caller.Can(Permissions.Manage) || caller.Locations is not null)
        {
            return PageResults.NotAllowed(T("herds.onlyManager"));
        }

        var (typed, wanted) = (name?.Trim() ?? "", zone?.Trim() ?? "");
        var problems = new Dictionary<string, string>(StringComparer.Ordinal);
        if (!TextRule.Name.Accepts(typed))
        {
            problems["name"] = T("herds.badName");
        }

        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(wanted) is null)
        {
            problems["zone"] = T("herds.badZone", wanted);
        }

        if (problems.Count > 0)
        {
            return PageResults.Page<HomePage>(context, Home([], caller, typed, wanted, problems), 422);
        }

        var location = Free(store, typed);
        await store.Herds.Put(location, typed, wanted, clock.GetCurrentInstant());
        return Results.Redirect($"{PageRequest.PathOf(location)}/programme");
    }

    // "North Ridge 2" is at local/north-ridge-2, with the letters of any language as they are; a second herd of the name gets a number.
    private static LocationKey Free(Store store, string name)
    {
        var id = new StringBuilder();
        foreach (var letter in name)
        {
            if (char.IsLetterOrDigit(letter))
            {
                id.Append(char.ToLowerInvariant(letter));
            }
            else if (id.Length > 0 && id[^1] != '-')
            {
                id.Append('-');
            }
        }

        var word = id.ToString().Trim('-') is { Length: > 0 } made ? made : "herd";
        return Enumerable.Range(1, int.MaxValue - 1)
            .Select(i => new LocationKey(Scheme, i == 1 ? word : string.Create(CultureInfo.InvariantCulture, $"{word}-{i}")))
            .First(key => store.Herds.Find(key) is null);
    }
}
