using System.Collections.Concurrent;

namespace ReproLink.Records;

/// <summary>
/// Connections for reading. Under WAL a reader sees one moment of the store and never waits for the writer's disk.
/// </summary>
internal sealed class Readers(string path) : IDisposable
{
    private readonly ConcurrentBag<Connection> _idle = [];
    private volatile bool _closed;

    /// <summary>Reads one consistent moment.</summary>
    public T Read<T>(Func<Connection, T> read)
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        var connection = _idle.TryTake(out var idle) ? idle : Connection.ForReading(path);
        var usable = false;
        try
        {
            connection.Prepared("BEGIN").Run();
            var result = read(connection);
            connection.ResetAll();
            connection.Prepared("COMMIT").Run();
            usable = true;
            return result;
        }
        finally
        {
            Return(connection, usable);
        }
    }

    private void Return(Connection connection, bool usable)
    {
        if (!usable || _closed)
        {
            connection.Dispose();
            return;
        }

        _idle.Add(connection);
    }

    public void Dispose()
    {
        _closed = true;
        while (_idle.TryTake(out var connection))
        {
            connection.Dispose();
        }
    }
}
