using NodaTime;

namespace ReproLink.Records;

/// <summary>
/// Notices that the file was written since the last look: by this process or, what matters, by another one (an import, a
/// new key made at the command line). Looks at most once in an interval, so that a cached answer costs no read.
/// </summary>
internal sealed class ForeignWrites(string path, Duration interval) : IDisposable
{
    private readonly Lock _gate = new();
    private readonly long _interval = (long)interval.TotalMilliseconds;
    private Connection? _connection;
    private long _lookedAt = long.MinValue / 2;
    private long _version = 1;
    private bool _closed;

    /// <summary>Another number than before when the file was written meanwhile.</summary>
    public long Version()
    {
        var ticks = Environment.TickCount64;
        if (ticks < Interlocked.Read(ref _lookedAt) + _interval)
        {
            return Interlocked.Read(ref _version);
        }

        lock (_gate)
        {
            ObjectDisposedException.ThrowIf(_closed, this);
            // data_version is relative to one connection: always ask the same.
            _connection ??= Connection.ForReading(path);
            var statement = _connection.Prepared("PRAGMA data_version");
            statement.Step();
            Interlocked.Exchange(ref _version, statement.Long(0));
            statement.Reset();
            Interlocked.Exchange(ref _lookedAt, ticks);
            return _version;
        }
    }

    public void Dispose()
    {
        lock (_gate)
        {
            _closed = true;
            _connection?.Dispose();
        }
    }
}
