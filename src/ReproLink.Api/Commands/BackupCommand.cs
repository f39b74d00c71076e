using System.CommandLine;

namespace ReproLink.Api.Commands;

/// <summary>Copies the database while it is in use.</summary>
internal static class BackupCommand
{
    private const string Description = """
        Write a complete copy of the database as of this moment, also while the service runs.

        An existing file is never overwritten. To restore, stop the service and put the copy in the database's place.

        Example:
          ReproLink.Api backup /backup/herds-monday.db --database herds.db
        """;

    public static Command Make()
    {
        var file = new Argument<string>("FILE") { Description = "The copy" };
        var database = StoreFiles.Option();
        var command = new ExplainedCommand("backup", Description) { file, database };
        command.SetAction((result, cancel) => Backup(StoreFiles.Path(result.GetValue(database)), result.GetRequiredValue(file), cancel));
        return command;
    }

    private static async Task<int> Backup(string database, string file, CancellationToken cancel)
    {
        await using var store = StoreFiles.Open(database, mustExist: true);
        try
        {
            await store.BackupTo(file, cancel);
        }
        catch (Exception refused) when (StoreFiles.IsStoreProblem(refused))
        {
            throw new CommandException(refused.Message, CommandLine.Failed);
        }

        Console.WriteLine($"Copied {database} to {file} ({new FileInfo(file).Length:N0} bytes).");
        return CommandLine.Done;
    }
}
