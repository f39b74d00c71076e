using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>Results on their way in, whether they came as a body or in a form of a page.</summary>
internal sealed class ResultDesk(Store store, HerdRequest request)
{
    /// <summary>Reads and matches a batch; nothing is stored.</summary>
    public TestResultIntake Intake(ReceivedBody body)
    {
        var view = store.Views.Current(request.Herd, request.Now);
        return store.Rounds.Look(request.Herd, tubes => new TestResultIntake(body, request, view, tubes));
    }

    /// <summary>Done and undone: what is answered is what the same batch would be answered now.</summary>
    public Task<T> Preview<T>(TestResultIntake intake, Func<SubmissionAnswer, AnimalTraces, T> answer, CancellationToken ct)
    {
        var rules = store.Views.Some(request.Herd, [], request.Now).Rules;
        return store.Facts.Preview(request.Herd, intake.Submission, request.Now, stored =>
        {
            var knownAt = Instant.Max(request.Now, stored.Recorded);
            return answer(stored, new AnimalTraces(stored.History, rules, Day.From(knownAt.InZone(request.Zone).Date), knownAt));
        }, ct);
    }
}
