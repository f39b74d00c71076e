using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace ReproLink.Api.Tests.Operations;

/// <summary>Everything that is logged, with the scopes around it.</summary>
internal sealed class CapturedLog : ILoggerProvider, ISupportExternalScope
{
    private readonly ConcurrentQueue<string> _lines = new();
    private IExternalScopeProvider? _scopes;

    public string Text => string.Join('\n', _lines);

    /// <summary>Whether there is such a line, or one comes: a request is logged after it was answered.</summary>
    public async Task<bool> Has(Func<string, bool> line)
    {
        for (var i = 0; i < 600 && !_lines.Any(line); i++)
        {
            await Task.Delay(50);
        }

        return _lines.Any(line);
    }

    public ILogger CreateLogger(string categoryName) => new Writer(this, categoryName);

    public void SetScopeProvider(IExternalScopeProvider scopeProvider) => _scopes = scopeProvider;

    public void Dispose()
    {
    }

    private sealed class Writer(CapturedLog log, string category) : ILogger
    {
        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => log._scopes?.Push(state);

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
        {
            var line = $"{logLevel} {category}: {formatter(state, exception)} {exception}";
            log._scopes?.ForEachScope((scope, _) => line += $" [{(scope is IEnumerable<KeyValuePair<string, object?>> named ? string.Join(' ', named) : scope)}]", 0);
            log._lines.Enqueue(line);
        }
    }
}
