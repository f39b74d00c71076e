namespace ReproLink.Records;

/// <summary>A copy of the store as of one moment, safe while it is written to.</summary>
internal static class Backup
{
    public static void Write(string from, string to)
    {
        if (File.Exists(to))
        {
            throw new IOException($"There is a file '{to}': a backup never overwrites one.");
        }

        // Under another name until it is complete and on disk: a half-written file must not look like a backup.
        var partial = to + ".partial";
        File.Delete(partial);
        using (var connection = Connection.ForBackup(from))
        {
            using var statement = new Statement(connection.Sqlite, "VACUUM INTO ?1");
            statement.Bind(1, partial).Run();
        }

        using (var file = new FileStream(partial, FileMode.Open, FileAccess.ReadWrite))
        {
            file.Flush(flushToDisk: true);
        }

        File.Move(partial, to);
    }
}
