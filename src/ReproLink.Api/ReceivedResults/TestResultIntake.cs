using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>One batch of results on its way in: what is rejected, what is tied, what is held, each in its place.</summary>
internal sealed class TestResultIntake
{
    private readonly TestResultAnswer?[] _answers;
    private readonly List<(int Index, FactDraft Draft)> _tied = [];
    private readonly List<(int Index, HeldDraft Draft)> _held = [];
    private readonly HashSet<(string Source, string SourceId)> _identities = [];

    public TestResultIntake(BatchBody batch, HerdRequest request, HerdView view)
    {
        _answers = new TestResultAnswer?[batch.Items.Count];
        var reader = new TestResultReader(request);
        var matcher = new ResultMatcher(view);
        foreach (var item in batch.Items)
        {
            Take(item, reader, matcher);
        }
    }

    public Submission Submission => new(_tied.ConvertAll(t => t.Draft), _held.ConvertAll(h => h.Draft));

    public TestResultAnswers Answers(SubmissionAnswer stored, AnimalTraces traces)
    {
        for (var i = 0; i < _tied.Count; i++)
        {
            _answers[_tied[i].Index] = TestResultMapping.Accepted(_tied[i].Draft, stored.Facts[i], traces);
        }

        for (var i = 0; i < _held.Count; i++)
        {
            _answers[_held[i].Index] = TestResultMapping.Held(_held[i].Draft, stored.Held[i]);
        }

        return new TestResultAnswers { Results = _answers! };
    }

    private void Take(BatchItem item, TestResultReader reader, ResultMatcher matcher)
    {
        var problems = new FieldProblems();
        var (result, sourceId) = reader.Read(item, problems);
        if (result is null)
        {
            _answers[item.Index] = TestResultMapping.Rejected(item, sourceId, problems.List);
            return;
        }

        var match = matcher.Tie(result);
        if (match.HeldFor is null)
        {
            _tied.Add((item.Index, new FactDraft(match.Animal!, result.Fact)));
            _identities.Add((result.Fact.Source, result.Fact.SourceId));
        }
        else if (_identities.Contains((result.Fact.Source, result.Fact.SourceId)))
        {
            RefuseSecond(item, result, match);
        }
        else
        {
            _held.Add((item.Index, TestResultMapping.Hold(result, match, item.Element.GetRawText())));
        }
    }

    // The store holds what is to be held before it appends the rest, so the later word would not be the one that counts.
    private void RefuseSecond(BatchItem item, ReceivedResult result, Match match)
    {
        var problems = new FieldProblems();
        problems.Add(ProblemTypes.SentTwice, "sourceId", result.Fact.SourceId, "each sourceId once, where one of them would be held",
            $"This batch already says of '{result.Fact.SourceId}' whose result it is; this item would be held as {match.HeldFor}.");
        _answers[item.Index] = TestResultMapping.Rejected(item, result.Fact.SourceId, problems.List);
    }
}
