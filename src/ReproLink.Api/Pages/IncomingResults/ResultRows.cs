using ReproLink.Api.Explanations;
using ReproLink.Api.HeldResults;
using ReproLink.Api.Intake;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;
using ReproLink.Web.Results;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages.IncomingResults;

/// <summary>Lines of results with what they do, for people: before they are stored, and afterwards.</summary>
internal static class ResultRows
{
    /// <summary>What a batch would do; called inside the transaction that is undone.</summary>
    public static List<ResultRow> Ahead(ReceivedBody body, TestResultIntake intake, SubmissionAnswer stored, AnimalTraces traces, HerdRules rules, Day today)
    {
        var answers = intake.Answers(stored, traces).Results;
        var tied = intake.Tied.ToDictionary(t => t.Index, t => t.Draft.Fact);
        return [.. body.Batch.Items.Select((item, i) =>
        {
            var answer = answers[i];
            ReceivedEndpoints.Decisions.TryRead(answer.Status, out var becomes);
            var row = new ResultRow
            {
                Line = item.Line ?? i + 1,
                Text = item.Raw ?? item.Element.GetRawText(),
                Becomes = becomes,
                Animal = answer.Animal,
                Says = Says(tied.GetValueOrDefault(i)),
                Why = answer.Reason is { } held ? [HeldReading.Text(held)]
                    : answer.Problems is { } problems ? [.. problems.Select(p => p.Detail)]
                    : [.. (answer.Reasons ?? []).Select(r => r.Text)],
                Warnings = [.. (answer.Warnings ?? []).Select(w => w.Text)],
            };
            return answer.Animal is { } animal && traces.StateOf(animal) is { } state
                ? Of(row, state, traces.Of(animal), FactId.TryParse(answer.FactId, out var id) ? id : default, rules, today)
                : row;
        })];
    }

    /// <summary>A line as stored, and how her page stands today.</summary>
    public static ResultRow Stored(StoredLine line, Store store, HerdView view)
    {
        var row = new ResultRow
        {
            Line = line.Line ?? line.Item,
            Text = line.Raw,
            Becomes = line.Decision,
            HeldId = line.HeldId,
            Why = line.Why is not { } why ? [] : [line.Decision == ReceivedDecision.Held ? HeldReading.Text(why) : why],
        };
        var held = line.HeldId is { } id ? store.Held.Find(view.Herd, id) : null;
        row = held?.End is { } end ? row with { Since = T("results.decided", Say.Ended(end)) } : row;
        if ((line.Fact ?? held?.End?.Fact) is not { } fact || store.Facts.Find(view.Herd, fact) is not { } stored)
        {
            return row;
        }

        row = row with { Animal = stored.Animal, Says = Says(stored.Fact), Since = stored.Withdrawn is null ? row.Since : Say.Withdrawn(stored.WithdrawnReason) };
        if (view.Find(stored.Animal) is not { } state)
        {
            return row;
        }

        var trace = new FoldTrace();
        HistoryFold.Fold(state.History, view.Rules, view.AsOf, view.KnownAt, trace);
        var judged = trace.Of(fact);
        return Of(row with { Why = row.Why.Count > 0 ? row.Why : [.. (judged?.Reasons ?? []).Select(r => r.Text)] }, state, trace, fact, view.Rules, view.AsOf);
    }

    /// <summary>What a settled held result came to, as a line.</summary>
    public static ResultRow? Assigned(HeldResult held, Store store, HerdView view) => held.End?.Fact is { } fact
        ? Stored(new StoredLine(0, 1, null, null, "", "", held.Received, "", null, "", null, ReceivedDecision.Accepted, null, fact, null), store, view)
        : null;

    private static ResultRow Of(ResultRow row, AnimalState state, FoldTrace trace, FactId fact, HerdRules rules, Day today) => row with
    {
        Decides = trace.Of(fact)?.Decides ?? Decision.Nothing,
        Status = state.Status,
        Withheld = Gate.Closed(state, rules),
        Again = TestWindows.Answer(state, rules, today).Verdict is { Need: Need.Resample, Window: { } window } ? window : null,
    };

    private static Outcome? Says(Fact? fact) => fact switch
    {
        TestResult result => result.Outcome,
        Examination examination => examination.Outcome,
        _ => null,
    };
}
