using System.CommandLine;
using NodaTime;
using ReproLink.Records;

namespace ReproLink.Api.Commands.Importing;

/// <summary>What an import is asked to do.</summary>
internal sealed record ImportRequest(
    IReadOnlyList<string> Files, LocationKey Location, string Format, string? Herd, string? Name, string? TimeZone, string Source)
{
    /// <summary>The file that says how a sender's own columns are read.</summary>
    public string? Mapping { get; init; }

    /// <summary>Whether it is only said what would happen.</summary>
    public bool Dry { get; init; }

    /// <summary>The veterinarian who answers for the approvals in a zip.</summary>
    public string? Veterinarian { get; init; }
}

/// <summary>Reads facts from files into a database.</summary>
internal static class ImportCommand
{
    private const string Description = """
        Read facts from CSV files into a herd.

        The good lines are stored, the others are listed with what is allowed; a line read before is a duplicate and stored once.
        The exit code is 1 when any line was rejected. With --dry-run nothing is stored: it is said what would happen.

        Formats:
          facts-csv         the columns of POST /facts: sourceId,kind,animal,date,...
          dated-facts-csv   herd,animal,date,fact,detail with birth, insemination, calving, arrival, departure;
                            --location scheme/* makes one location a herd
          herd-zip          what `export` wrote, put back whole into a location without records

        With --mapping FILE the files have a sender's own columns; the mapping is the body of PUT /fact-mappings/{sender}, and --source
        names the sender (docs/import.md).

        Examples:
          ReproLink.Api import facts.csv --location local/north-ridge --name "North Ridge" --time-zone America/Chicago
          ReproLink.Api import cows.csv --mapping herd-book.json --source herd-book --location local/north-ridge --dry-run
          ReproLink.Api import north-ridge.zip --format herd-zip --location local/north-ridge --veterinarian "Dr Hale"
          ReproLink.Api import herds.csv --format dated-facts-csv --location fr/* --time-zone Europe/Paris
          ReproLink.Api import herds.csv --format dated-facts-csv --location fr/one --herd FR000001 --time-zone Europe/Paris
        """;

    public static Command Make()
    {
        var files = new Argument<string[]>("FILE") { Description = "Files to read", Arity = ArgumentArity.OneOrMore };
        var location = new Option<string>("--location") { Description = "The herd's location, scheme/id", HelpName = "scheme/id", Required = true };
        var format = new Option<string>("--format") { Description = "Form of the files", DefaultValueFactory = _ => ImportFile.Facts };
        format.AcceptOnlyFromAmong(ImportFile.Formats);
        var mapping = new Option<string>("--mapping") { Description = "How the files' own columns are read, JSON", HelpName = "FILE" };
        var dry = new Option<bool>("--dry-run") { Description = "Store nothing, say what would happen" };
        var herd = new Option<string>("--herd") { Description = "dated-facts-csv: only this herd of the file", HelpName = "HERD" };
        var name = new Option<string>("--name") { Description = "Name of a herd that is not there yet [default: its id]", HelpName = "NAME" };
        var zone = new Option<string>("--time-zone") { Description = "Time zone of a herd that is not there yet, e.g. America/Chicago", HelpName = "ZONE" };
        var source = new Option<string>("--source") { Description = "Source of lines that name none", DefaultValueFactory = _ => "import", HelpName = "NAME" };
        var veterinarian = new Option<string>("--veterinarian") { Description = "herd-zip: who answers for the approvals in it; without, they are left out", HelpName = "NAME" };
        var database = StoreFiles.Option();
        var command = new ExplainedCommand("import", Description) { files, location, format, mapping, dry, herd, name, zone, source, veterinarian, database };
        command.SetAction(result => Import(
            new ImportRequest(
                result.GetRequiredValue(files), Locations.Read(result.GetRequiredValue(location)), result.GetRequiredValue(format),
                result.GetValue(herd), result.GetValue(name), result.GetValue(zone), result.GetRequiredValue(source))
            {
                Mapping = result.GetValue(mapping),
                Dry = result.GetValue(dry),
                Veterinarian = result.GetValue(veterinarian),
            },
            StoreFiles.Path(result.GetValue(database))));
        return command;
    }

    private static async Task<int> Import(ImportRequest request, string database)
    {
        if (request.Format == ImportFile.HerdZip)
        {
            return await ZipImport.Run(request, database);
        }

        var summary = new ImportSummary(request.Dry);
        var plan = await Plan(request, summary);
        var now = SystemClock.Instance.GetCurrentInstant();
        await using var dry = request.Dry ? await DryRun.Of(database, plan.Select(p => p.Location)) : null;
        await using var real = dry is null ? StoreFiles.Open(database, mustExist: false) : null;
        foreach (var (file, location, items) in plan)
        {
            var store = dry?.Store ?? real!;
            var herd = await ImportPlan.Herd(store, request, location, now);
            var import = new HerdImport(store, herd, request.Source, now);
            await ImportProgress.Run($"{Path.GetFileName(file)} into {Locations.Text(location)}", items.Count, done => request.Dry
                ? import.Try(file, [.. items.Select(i => i.Item)], summary, done)
                : import.Run(file, [.. items.Select(i => i.Item)], summary, done));
        }

        summary.Print(Console.Out);
        return summary.Rejected > 0 ? CommandLine.SomeRejected : CommandLine.Done;
    }

    private static async Task<List<(string File, LocationKey Location, IReadOnlyList<ImportItem> Items)>> Plan(ImportRequest request, ImportSummary summary)
    {
        if (request is { Mapping: not null, Format: not ImportFile.Facts })
        {
            throw new CommandException($"--mapping reads a sender's own columns: leave out --format {request.Format}.");
        }

        var sheet = request.Mapping is { } path ? await MappedImport.Mapping(path, request.Source) : null;
        var plan = new List<(string, LocationKey, IReadOnlyList<ImportItem>)>();
        foreach (var file in request.Files)
        {
            if (sheet is null)
            {
                plan.AddRange(ImportPlan.Make(request, file, await ImportFile.Read(file, request.Format)));
                continue;
            }

            var (items, mapped) = await MappedImport.Read(file, sheet);
            summary.Tell(file, mapped);
            plan.AddRange(ImportPlan.Make(request, file, items));
        }

        return plan;
    }
}
