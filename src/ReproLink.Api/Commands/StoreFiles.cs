using System.CommandLine;
using ReproLink.Api.Composition;
using ReproLink.Records;

namespace ReproLink.Api.Commands;

/// <summary>The database of the commands that work on it without the service.</summary>
internal static class StoreFiles
{
    public static Option<string> Option() => new("--database")
    {
        Description = "Database file [default: reprolink.db in this folder, or the environment variable Database]",
        HelpName = "FILE",
    };

    /// <summary>Path of the database.</summary>
    public static string Path(string? option)
    {
        var configuration = new ConfigurationBuilder().AddEnvironmentVariables().Build();
        return ServiceSetup.DatabasePath(new ApiHostOptions { Database = option }, configuration);
    }

    /// <summary>Opens the database; <paramref name="mustExist"/>: a mistyped path must not become a new, empty one.</summary>
    public static Store Open(string path, bool mustExist)
    {
        if (mustExist && !File.Exists(path))
        {
            throw new CommandException($"There is no database '{path}'. Name it with --database FILE.");
        }

        try
        {
            return Store.Open(path);
        }
        catch (Exception refused) when (IsStoreProblem(refused))
        {
            throw new CommandException($"The database '{path}' cannot be opened: {refused.Message}", CommandLine.Failed);
        }
    }

    /// <summary>Whether a failure is about the file and not about the program.</summary>
    public static bool IsStoreProblem(Exception failure) =>
        failure is System.Data.Common.DbException or IOException or UnauthorizedAccessException;
}
