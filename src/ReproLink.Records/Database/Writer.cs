using System.Threading.Channels;
using Microsoft.Data.Sqlite;

namespace ReproLink.Records;

/// <summary>
/// The one writer. Requests queue; what has queued up is one transaction, and its one flush to disk is shared by all of
/// them. Answers leave after the commit. Each request has its own savepoint, so that a failing one undoes only itself.
/// </summary>
internal sealed class Writer : IAsyncDisposable
{
    private const int LongestQueue = 10_000;
    private const int LargestBatch = 1_000;

    private readonly Channel<WriteRequest> _queue = Channel.CreateBounded<WriteRequest>(
        new BoundedChannelOptions(LongestQueue) { SingleReader = true });
    private readonly Connection _connection;
    private readonly WriteUnit _unit;
    private readonly Action<IReadOnlyDictionary<long, long>> _committing;
    private readonly CommitSignal? _committed;
    private readonly Task _loop;
    private long _batches;
    private long _requests;

    /// <param name="connection">The only connection that writes.</param>
    /// <param name="committing">Told of every herd changed, before the commit: whoever sees a change in the file finds it announced.</param>
    /// <param name="committed">Raised once changes are on disk and answered.</param>
    public Writer(Connection connection, Action<IReadOnlyDictionary<long, long>> committing, CommitSignal? committed = null)
    {
        _committed = committed;
        _connection = connection;
        _committing = committing;
        _unit = new WriteUnit(connection);
        _loop = Task.Run(Loop);
    }

    public bool IsRunning => !_loop.IsCompleted;

    /// <summary>Requests that wait.</summary>
    public int Waiting => _queue.Reader.Count;

    /// <summary>Transactions so far.</summary>
    public long Batches => Interlocked.Read(ref _batches);

    /// <summary>Requests answered so far; by transaction, how large a batch is.</summary>
    public long Requests => Interlocked.Read(ref _requests);

    public Task<T> Write<T>(Func<WriteUnit, T> work, CancellationToken cancel = default) => Run(new WriteRequest<T>(work), cancel);

    /// <summary>Does the work, answers what came of it, and undoes it.</summary>
    public Task<T> Try<T>(Func<WriteUnit, T> work, CancellationToken cancel = default) => Run(new WriteRequest<T>(work, keeps: false), cancel);

    private async Task<T> Run<T>(WriteRequest<T> request, CancellationToken cancel)
    {
        await _queue.Writer.WriteAsync(request, cancel).ConfigureAwait(false);
        // Once queued it will be done: a caller that stops waiting must not be told that nothing happened.
        return await request.Task.ConfigureAwait(false);
    }

    /// <summary>Takes no more requests, answers those queued, and closes the connection.</summary>
    public async ValueTask DisposeAsync()
    {
        _queue.Writer.TryComplete();
        await _loop.ConfigureAwait(false);
        _connection.Dispose();
    }

    private async Task Loop()
    {
        var batch = new List<WriteRequest>(LargestBatch);
        while (await _queue.Reader.WaitToReadAsync().ConfigureAwait(false))
        {
            while (batch.Count < LargestBatch && _queue.Reader.TryRead(out var request))
            {
                batch.Add(request);
            }

            var error = Commit(batch);
            Interlocked.Increment(ref _batches);
            Interlocked.Add(ref _requests, batch.Count);
            foreach (var request in batch)
            {
                request.Complete(error);
            }

            batch.Clear();
            if (error is null && _unit.Touched.Count > 0)
            {
                _committed?.Raise();
            }
        }
    }

    private Exception? Commit(List<WriteRequest> batch)
    {
        try
        {
            _connection.Prepared("BEGIN IMMEDIATE").Run();
            _unit.BeginBatch();
            foreach (var request in batch)
            {
                RunOne(request);
            }

            _unit.EndBatch();
            _committing(_unit.Touched);
            _connection.Prepared("COMMIT").Run();
            return null;
        }
#pragma warning disable CA1031 // The batch failed as a whole: every request of it gets the error, and the writer lives on.
        catch (Exception error)
#pragma warning restore CA1031
        {
            Abandon();
            return error;
        }
    }

    private void RunOne(WriteRequest request)
    {
        _connection.Prepared("SAVEPOINT request").Run();
        _unit.Begin();
        if (request.Run(_unit))
        {
            _unit.Keep();
        }
        else if (_connection.InTransaction)
        {
            _connection.Prepared("ROLLBACK TO request").Run();
            _unit.Undo();
        }
        else
        {
            throw new IOException("The store ended the transaction: nothing of this batch was stored.");
        }

        _connection.Prepared("RELEASE request").Run();
    }

    private void Abandon()
    {
        _unit.Names.Forget();
        try
        {
            if (_connection.InTransaction)
            {
                _connection.Prepared("ROLLBACK").Run();
            }
        }
        catch (SqliteException)
        {
            // The next BEGIN fails and says so to its callers.
        }
    }
}
