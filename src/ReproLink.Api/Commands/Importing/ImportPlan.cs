using NodaTime;
using ReproLink.Records;

namespace ReproLink.Api.Commands.Importing;

/// <summary>Which lines go into which herd.</summary>
internal static class ImportPlan
{
    private const string Each = "*";

    public static IEnumerable<(string File, LocationKey Location, IReadOnlyList<ImportItem> Items)> Make(
        ImportRequest request, string file, IReadOnlyList<ImportItem> items)
    {
        var herds = items.Select(i => i.Herd).OfType<string>().Distinct().ToArray();
        if (herds.Length == 0)
        {
            return request.Location.Id == Each
                ? throw new CommandException($"--location {Locations.Text(request.Location)}: {file} names no herd.")
                : [(file, request.Location, items)];
        }

        if (request.Herd is { } one && !herds.Contains(one))
        {
            throw new CommandException($"--herd {one}: {file} has {herds.Length} herds: {string.Join(", ", herds)}.");
        }

        return request.Location.Id == Each
            ? herds.Where(h => request.Herd is null || h == request.Herd).Select(h => (file, request.Location with { Id = h }, Of(items, h, herds)))
            : [(file, request.Location, Of(items, OnlyHerd(request, file, herds), herds))];
    }

    /// <summary>The herd at a location, made when it is not there.</summary>
    public static async Task<Herd> Herd(Store store, ImportRequest request, LocationKey location, Instant now)
    {
        if (store.Herds.Find(location) is { } known)
        {
            return known;
        }

        if (request.TimeZone is not { } zone || DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone) is null)
        {
            throw new CommandException(
                $"There is no herd at {Locations.Text(location)} yet: name its time zone with --time-zone, one of the IANA database such as America/Chicago.");
        }

        return await store.Herds.Put(location, request.Name ?? location.Id, zone, now);
    }

    private static string OnlyHerd(ImportRequest request, string file, string[] herds) =>
        request.Herd ?? (herds.Length == 1
            ? herds[0]
            : throw new CommandException($"{file} has {herds.Length} herds. Choose one with --herd, or give each its location with --location {request.Location.Scheme}/*."));

    // A line whose herd cannot be read must be answered too: it goes with the first herd, where it is rejected.
    private static IReadOnlyList<ImportItem> Of(IReadOnlyList<ImportItem> items, string herd, string[] herds) =>
        [.. items.Where(i => i.Herd == herd || (string.IsNullOrEmpty(i.Herd) && herd == herds[0]))];
}
