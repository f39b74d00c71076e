using NodaTime;
using ReproLink.Api.Archives;
using ReproLink.Records;

namespace ReproLink.Api.Commands.Importing;

/// <summary>Puts an exported herd back.</summary>
internal static class ZipImport
{
    public static async Task<int> Run(ImportRequest request, string database)
    {
        if (request.Files.Count != 1 || request is { Dry: true } or { Mapping: not null } or { Location.Id: "*" })
        {
            throw new CommandException($"--format {ImportFile.HerdZip} puts one zip back into one location, without --mapping and --dry-run.");
        }

        var now = SystemClock.Instance.GetCurrentInstant();
        await using var zip = Open(request.Files[0]);
        await using var store = StoreFiles.Open(database, mustExist: false);
        var (answer, refusal) = await HerdRestorer.Restore(store, Into, zip, request.Veterinarian, now);
        if (answer is null)
        {
            throw new CommandException($"{request.Files[0]}: {await CsvFile.Detail(refusal!)}", CommandLine.Failed);
        }

        var counts = answer.Restored;
        Console.WriteLine($"Put back: {counts.Facts} facts ({counts.Withdrawn} withdrawn), {counts.Held} held results, {counts.Programmes} programme versions, {counts.Rounds} rounds.");
        if (!answer.Approvals.Restored && answer.Approvals.Versions.Count > 0)
        {
            Console.WriteLine("Approvals were left out: until a veterinarian approves the programme, prostaglandin and protocol inseminations wait.");
        }

        return CommandLine.Done;

        async Task<Herd> Into(HerdArchive archive) =>
            store.Herds.Find(request.Location) ?? await store.Herds.Put(request.Location, archive.Name, archive.TimeZone, now);
    }

    private static FileStream Open(string file)
    {
        try
        {
            return File.OpenRead(file);
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new CommandException($"{file}: {refused.Message}");
        }
    }
}
