using System.CommandLine;
using ReproLink.Api.Archives;

namespace ReproLink.Api.Commands;

/// <summary>Takes a herd out whole.</summary>
internal static class ExportCommand
{
    private const string Description = """
        Write everything on record of a herd into a zip of CSV and JSON, also while the service runs.

        An existing file is never overwritten. The zip goes back into an empty location with `import ZIP --format herd-zip`.

        Example:
          ReproLink.Api export north-ridge.zip --location local/north-ridge --database herds.db
        """;

    public static Command Make()
    {
        var file = new Argument<string>("FILE") { Description = "The zip" };
        var location = new Option<string>("--location") { Description = "The herd's location, scheme/id", HelpName = "scheme/id", Required = true };
        var database = StoreFiles.Option();
        var command = new ExplainedCommand("export", Description) { file, location, database };
        command.SetAction((result, _) => Export(StoreFiles.Path(result.GetValue(database)), result.GetRequiredValue(location), result.GetRequiredValue(file)));
        return command;
    }

    private static async Task<int> Export(string database, string location, string path)
    {
        await using var store = StoreFiles.Open(database, mustExist: true);
        var herd = store.Herds.Find(Locations.Read(location)) ?? throw new CommandException($"--location {location}: the database has no herd there.");
        if (File.Exists(path))
        {
            throw new CommandException($"There is a file '{path}': an export never overwrites one.", CommandLine.Failed);
        }

        try
        {
            // Under another name until it is complete.
            var partial = path + ".partial";
            await using (var file = new FileStream(partial, FileMode.Create))
            {
                ZipWriter.Write(store, herd, file);
            }

            File.Move(partial, path);
        }
        catch (Exception refused) when (StoreFiles.IsStoreProblem(refused))
        {
            throw new CommandException(refused.Message, CommandLine.Failed);
        }

        Console.WriteLine($"Wrote {herd.Name} to {path} ({new FileInfo(path).Length:N0} bytes).");
        return CommandLine.Done;
    }
}
