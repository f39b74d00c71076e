using System.Collections.Concurrent;
using System.Globalization;
using Prometheus;
using ReproLink.Records;

namespace ReproLink.Api.Metering;

/// <summary>
/// What a watcher may count, in the words of Prometheus. Labels are routes, methods and statuses: never an animal, a herd or
/// a key, and never anything a caller can make up.
/// </summary>
internal sealed class ServiceMetrics
{
    private static readonly HashSet<string> Methods = ["GET", "HEAD", "POST", "PUT", "DELETE", "PATCH", "OPTIONS"];

    private readonly CollectorRegistry _registry = Metrics.NewCustomRegistry();
    private readonly ConcurrentDictionary<(string Method, string Route, int Status), IHistogram> _requests = new();
    private readonly Histogram _durations;
    private readonly Counter _limited;
    private readonly Counter _wrongKeys;

    public ServiceMetrics(IServiceProvider services)
    {
        var make = Metrics.WithCustomRegistry(_registry);
        _durations = make.CreateHistogram(
            "reprolink_request_duration_seconds",
            "Time from a request's arrival to the end of its answer.",
            ["method", "route", "status"],
            new HistogramConfiguration { Buckets = [0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10] });
        _limited = make.CreateCounter("reprolink_requests_limited_total", "Requests turned away because their caller sent too many.");
        _wrongKeys = make.CreateCounter("reprolink_wrong_keys_total", "Requests with a key that is not known.");
        var store = new StoreGauges(make);
        // The store is opened by whoever serves, not by whoever composes.
        _registry.AddBeforeCollectCallback(() => store.Set(services.GetRequiredService<Store>().Measure()));
        DotNetStats.Register(_registry);
    }

    /// <summary>A request was answered.</summary>
    public void Request(string method, string? route, int status, TimeSpan took)
    {
        var key = (Methods.Contains(method) ? method : "other", route ?? "none", status);
        var histogram = _requests.GetOrAdd(key, static (k, all) => all.WithLabels(k.Method, k.Route, k.Status.ToString(CultureInfo.InvariantCulture)), _durations);
        histogram.Observe(took.TotalSeconds);
    }

    /// <summary>A caller sent too much.</summary>
    public void Limited() => _limited.Inc();

    /// <summary>A key was not known.</summary>
    public void WrongKey() => _wrongKeys.Inc();

    /// <summary>All of it as text.</summary>
    public Task Write(Stream to, CancellationToken ct) => _registry.CollectAndExportAsTextAsync(to, ct);
}

/// <summary>What the store measures of itself.</summary>
internal sealed class StoreGauges(IMetricFactory make)
{
    private readonly Gauge _waiting = make.CreateGauge("reprolink_writes_waiting", "Writes that wait for the writer now.");
    private readonly Counter _transactions = make.CreateCounter("reprolink_write_transactions_total", "Transactions committed or failed.");
    private readonly Counter _writes = make.CreateCounter("reprolink_writes_total", "Writes answered; by transaction, the size of a batch.");
    private readonly Counter _folds = make.CreateCounter("reprolink_folds_total", "How often a herd was folded, whole or in part.");
    private readonly Gauge _facts = make.CreateGauge("reprolink_facts_in_memory", "Facts kept in memory.");
    private readonly Gauge _held = make.CreateGauge("reprolink_results_held", "Results that wait for a person, over all herds.");
    private readonly Gauge _file = make.CreateGauge("reprolink_database_bytes", "Size of the database file, without its log.");

    public void Set(StoreMeasures now)
    {
        _waiting.Set(now.WritesWaiting);
        _transactions.IncTo(now.Transactions);
        _writes.IncTo(now.Writes);
        _folds.IncTo(now.Folds);
        _facts.Set(now.FactsInMemory);
        _held.Set(now.HeldOpen);
        _file.Set(now.FileBytes);
    }
}
