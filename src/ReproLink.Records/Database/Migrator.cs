using System.Globalization;

namespace ReproLink.Records;

/// <summary>Numbered scripts, run forward only; the file's <c>user_version</c> is the number of the last one run.</summary>
internal static class Migrator
{
    private const string Folder = "ReproLink.Records.Migrations.";

    /// <summary>The number this program knows.</summary>
    public static int Latest => Scripts().Max(s => s.Number);

    public static void Migrate(Connection connection)
    {
        // The number is read inside the transaction: two processes may open a new file at once.
        connection.Execute("BEGIN IMMEDIATE");
        try
        {
            var from = Version(connection);
            if (from > Latest)
            {
                throw new InvalidOperationException(
                    $"The store was written by a newer program (migration {from}; this program knows {Latest}).");
            }

            foreach (var (number, name) in Scripts().Where(s => s.Number > from).OrderBy(s => s.Number))
            {
                connection.Execute(Read(name));
                connection.Execute(string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {number}"));
            }

            connection.Execute("COMMIT");
        }
        catch
        {
            if (connection.InTransaction)
            {
                connection.Execute("ROLLBACK");
            }

            throw;
        }
    }

    public static int Version(Connection connection)
    {
        using var statement = new Statement(connection.Sqlite, "PRAGMA user_version");
        return statement.Step() ? statement.Int(0) : 0;
    }

    private static IEnumerable<(int Number, string Name)> Scripts() =>
        from name in typeof(Migrator).Assembly.GetManifestResourceNames()
        where name.StartsWith(Folder, StringComparison.Ordinal)
        select (int.Parse(name.AsSpan(Folder.Length, 3), CultureInfo.InvariantCulture), name);

    private static string Read(string name)
    {
        using var stream = typeof(Migrator).Assembly.GetManifestResourceStream(name)!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
