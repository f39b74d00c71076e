using NodaTime;

namespace ReproLink.Records;

/// <summary>Settings of a store.</summary>
public sealed record StoreOptions
{
    /// <summary>Facts kept in memory over all herds; beyond it the herds not asked for longest are let go.</summary>
    public long MostFactsInMemory { get; init; } = 5_000_000;

    /// <summary>How soon what another process wrote is noticed.</summary>
    public Duration ForeignWritesAfter { get; init; } = Duration.FromSeconds(1);
}

/// <summary>Everything that is kept, in one file.</summary>
public sealed class Store : IAsyncDisposable
{
    private readonly string _path;
    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly ForeignWrites _foreign;

    private Store(string path, Connection writing, StoreOptions options)
    {
        _path = path;
        _readers = new Readers(path);
        _foreign = new ForeignWrites(path, options.ForeignWritesAfter);
        Views = new HerdViews(_readers, _foreign, options.MostFactsInMemory);
        _writer = new Writer(writing, Views.Committing, Committed);
        Herds = new Herds(_writer, _readers, _foreign);
        Facts = new FactLog(_writer, _readers);
        Programmes = new ProgrammeBook(_writer, _readers);
        Held = new HeldResults(_writer, _readers);
        Keys = new Keys(_writer, _readers, _foreign);
        SignInLinks = new SignInLinks(_writer, _readers, Keys);
        Changes = new ChangeLog(_readers);
        Protocols = new ProtocolShelf(_writer, _readers);
        Feeds = new FeedLinks(_writer, _readers);
        Rounds = new RoundBook(_writer, _readers);
        ResultMappings = new SenderMappings(_writer, _readers, SenderMappings.OfResults);
        FactMappings = new SenderMappings(_writer, _readers, SenderMappings.OfFacts);
        Received = new ReceivedLog(_readers);
        Visits = new CalendarVisits(_writer, _readers);
        Archives = new HerdArchives(_writer, _readers, Herds);
        Webhooks = new WebhookBook(_writer, _readers, Committed);
        Deliveries = new DeliveryLog(_writer, _readers, Committed);
        Outbox = new Outbox(_writer, _readers, Committed);
    }

    public Herds Herds { get; }

    public FactLog Facts { get; }

    public ProgrammeBook Programmes { get; }

    public HeldResults Held { get; }

    public Keys Keys { get; }

    public SignInLinks SignInLinks { get; }

    public HerdViews Views { get; }

    public ChangeLog Changes { get; }

    public ProtocolShelf Protocols { get; }

    public FeedLinks Feeds { get; }

    public RoundBook Rounds { get; }

    /// <summary>How senders' files of results are read.</summary>
    public SenderMappings ResultMappings { get; }

    /// <summary>How senders' herd files are read.</summary>
    public SenderMappings FactMappings { get; }

    public ReceivedLog Received { get; }

    public CalendarVisits Visits { get; }

    /// <summary>Herds taken out whole, and put back.</summary>
    public HerdArchives Archives { get; }

    public WebhookBook Webhooks { get; }

    public DeliveryLog Deliveries { get; }

    public Outbox Outbox { get; }

    /// <summary>Raised when this process has changed a herd.</summary>
    public CommitSignal Committed { get; } = new();

    /// <summary>Opens the file, made if it is not there and brought up to date if it is older than this program.</summary>
    public static Store Open(string path) => Open(path, new StoreOptions());

    /// <inheritdoc cref="Open(string)"/>
    public static Store Open(string path, StoreOptions options)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(options);
        var connection = Connection.ForWriting(path);
        try
        {
            Migrator.Migrate(connection);
            return new Store(path, connection, options);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>
    /// Writes a complete copy as of one moment, while the store is in use. The copy opens as a store: restoring is putting it in place.
    /// </summary>
    /// <exception cref="IOException">There is a file of that name: a backup never overwrites one.</exception>
    public Task BackupTo(string path, CancellationToken ct) => Task.Run(() => Backup.Write(_path, path), ct);

    /// <summary>Whether the file can be read and the writer takes requests.</summary>
    public bool IsHealthy()
    {
        try
        {
            return _writer.IsRunning && _readers.Read(connection =>
            {
                var statement = connection.Prepared("SELECT sequence FROM position");
                var there = statement.Step();
                statement.Reset();
                return there;
            });
        }
        catch (Exception error) when (error is Microsoft.Data.Sqlite.SqliteException or ObjectDisposedException)
        {
            return false;
        }
    }

    /// <summary>How the store is doing.</summary>
    public StoreMeasures Measure() => new(
        _writer.Waiting,
        _writer.Batches,
        _writer.Requests,
        Views.Folds,
        Views.FactsInMemory,
        Held.CountOpen(),
        new FileInfo(_path).Length);

    /// <summary>Answers what is queued, then closes the file.</summary>
    public async ValueTask DisposeAsync()
    {
        await _writer.DisposeAsync().ConfigureAwait(false);
        _readers.Dispose();
        _foreign.Dispose();
    }
}
