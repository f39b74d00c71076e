using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

/// <summary>One batch of facts on its way in: what is rejected is answered already, the others once they are stored.</summary>
internal sealed class FactIntake
{
    private readonly FactResult?[] _answers;
    private readonly List<(int Index, FactDraft Draft)> _drafts;
    private readonly FactBody _body;

    public FactIntake(FactBody body, HerdRequest request)
    {
        _body = body;
        var items = body.Batch.Items;
        _answers = new FactResult?[items.Count];
        _drafts = new(items.Count);
        var reader = new FactReader(request);
        foreach (var item in items)
        {
            Take(item, reader);
        }
    }

    public Submission Submission => new(_drafts.ConvertAll(d => d.Draft), []);

    public FactResults Answer(SubmissionAnswer stored, AnimalTraces traces)
    {
        for (var i = 0; i < _drafts.Count; i++)
        {
            var (index, draft) = _drafts[i];
            var warnings = FactWarnings.For(traces, draft.Animal, stored.Facts[i].Id);
            _answers[index] = FactMapping.Accepted(draft, stored.Facts[i], warnings) with { Line = _body.Batch.Items[index].Line };
        }

        return new FactResults
        {
            Results = _answers!,
            LeftOut = _body.Mapped?.LeftOut is { Count: > 0 } lines ? lines : null,
            UnreadColumns = _body.Mapped?.UnreadColumns is { Count: > 0 } headings ? headings : null,
        };
    }

    private void Take(BatchItem item, FactReader reader)
    {
        var problems = new FieldProblems();
        var (draft, sourceId) = item.Unreadable is null ? reader.Read(item, problems) : (null, null);
        if (draft is not null)
        {
            _drafts.Add((item.Index, draft));
        }
        else
        {
            IReadOnlyList<FieldProblem> wrong = item.Unreadable is { } unreadable ? [unreadable] : problems.List;
            _answers[item.Index] = FactMapping.Rejected(item, sourceId, wrong) with { Line = item.Line };
        }
    }
}
