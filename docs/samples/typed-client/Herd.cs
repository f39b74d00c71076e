using ReproLink.Client;

namespace TypedClient;

/// <summary>One location of the service.</summary>
internal sealed class Herd(ReproLinkClient client, string scheme, string id)
{
    /// <summary>Whom to bleed this week.</summary>
    public Task<BleedListAnswer> ToBleed() => client.GetBleedListAsync(scheme, id);

    /// <summary>Posts results; with the same key again it answers the same.</summary>
    public Task<TestResultAnswers> Post(IEnumerable<TestResultInput> results, string key) =>
        client.PostTestResultsAsync(scheme, id, results, idempotency_Key: key);

    /// <summary>The dated work of a period.</summary>
    public Task<WorkCalendarAnswer> Work(DateOnly from, DateOnly to) => client.GetWorkCalendarAsync(scheme, id, from, to);
}
