namespace ReproLink.Records;

/// <summary>One request to the writer: what it does to the store, and whoever waits for its answer.</summary>
internal abstract class WriteRequest
{
    private Exception? _error;

    /// <summary>Whether what it wrote stays.</summary>
    protected virtual bool Keeps => true;

    protected abstract void Do(WriteUnit unit);

    protected abstract void Answer(Exception? error);

    /// <summary>Does the work inside the batch's transaction; nothing is answered yet.</summary>
    /// <returns>False when its own writes must be undone: it failed, or only wanted to see what they would do.</returns>
    public bool Run(WriteUnit unit)
    {
        try
        {
            Do(unit);
            return Keeps;
        }
#pragma warning disable CA1031 // Whatever it is, it is this request's failure alone and is answered to it.
        catch (Exception error)
#pragma warning restore CA1031
        {
            _error = error;
            return false;
        }
    }

    /// <summary>Answers, once the batch is on disk or has failed as a whole.</summary>
    public void Complete(Exception? batchError) => Answer(_error ?? batchError);
}

/// <inheritdoc/>
internal sealed class WriteRequest<T>(Func<WriteUnit, T> work, bool keeps = true) : WriteRequest
{
    // Continuations run elsewhere: the writer must not run its callers' code.
    private readonly TaskCompletionSource<T> _answer = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private T? _result;

    public Task<T> Task => _answer.Task;

    protected override bool Keeps => keeps;

    protected override void Do(WriteUnit unit) => _result = work(unit);

    protected override void Answer(Exception? error)
    {
        if (error is null)
        {
            _answer.SetResult(_result!);
        }
        else
        {
            _answer.SetException(error);
        }
    }
}
