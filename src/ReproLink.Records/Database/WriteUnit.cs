using NodaTime;

namespace ReproLink.Records;

/// <summary>
/// What a request sees of the store while it writes: the connection, the position of the sequence and of recorded time,
/// and the herds it touched. One instance serves a whole batch; <see cref="Begin"/> and <see cref="Undo"/> bound a request.
/// </summary>
internal sealed class WriteUnit(Connection connection)
{
    private readonly Dictionary<long, long> _touched = [];
    private readonly Dictionary<long, long> _touchedNow = [];
    private long _sequence;
    private long _recorded;
    private (long Sequence, long Recorded) _before;

    public Connection Connection { get; } = connection;

    /// <summary>Names of animals and sources, remembered between requests.</summary>
    public Names Names { get; } = new(connection);

    /// <summary>The last number of the sequence given out.</summary>
    public long Sequence => _sequence;

    /// <summary>The last sequence number of each herd the batch changed.</summary>
    public IReadOnlyDictionary<long, long> Touched => _touched;

    /// <summary>Reads the position from the file: another process may have written since the last batch.</summary>
    public void BeginBatch()
    {
        _touched.Clear();
        var position = Connection.Prepared("SELECT sequence, recorded FROM position");
        position.Step();
        (var sequence, _recorded) = (position.Long(0), position.Long(1));
        position.Reset();
        if (sequence != _sequence)
        {
            Names.Forget();
        }

        _sequence = sequence;
    }

    public void EndBatch() => Connection.Prepared("UPDATE position SET sequence = ?1, recorded = ?2")
        .Bind(1, _sequence).Bind(2, _recorded).Run();

    public void Begin()
    {
        _before = (_sequence, _recorded);
        _touchedNow.Clear();
    }

    /// <summary>The request succeeded: its herds changed.</summary>
    public void Keep()
    {
        foreach (var (herd, sequence) in _touchedNow)
        {
            _touched[herd] = sequence;
        }
    }

    /// <summary>The request failed and its rows are gone.</summary>
    public void Undo()
    {
        (_sequence, _recorded) = _before;
        Names.Forget();
    }

    /// <summary>The recording instant of a request that came at <paramref name="now"/>: recorded time never runs backwards.</summary>
    public Instant Record(Instant now)
    {
        _recorded = Math.Max(_recorded, Ticks.Of(now));
        return Ticks.From(_recorded);
    }

    /// <summary>Takes the next number of the sequence for a row that changes a herd.</summary>
    public long Change(long herd, Instant recorded, ChangeKind kind, long? animal, long subject)
    {
        _sequence++;
        Connection.Prepared("INSERT INTO change (herd, sequence, recorded, kind, animal, subject) VALUES (?1, ?2, ?3, ?4, ?5, ?6)")
            .Bind(1, herd).Bind(2, _sequence).Bind(3, Ticks.Of(recorded)).Bind(4, (long)kind).Bind(5, animal).Bind(6, subject).Run();
        _touchedNow[herd] = _sequence;
        return _sequence;
    }
}
