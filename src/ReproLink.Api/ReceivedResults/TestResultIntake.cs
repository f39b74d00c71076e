using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>One batch of results on its way in: what is rejected, what is tied, what is held, each in its place.</summary>
internal sealed class TestResultIntake
{
    private readonly TestResultAnswer?[] _answers;
    private readonly ReceivedLine[] _lines;
    private readonly List<(int Index, FactDraft Draft)> _tied = [];
    private readonly List<(int Index, HeldDraft Draft)> _held = [];
    private readonly HashSet<(string Source, string SourceId)> _identities = [];
    private readonly ReceivedBody _body;
    private readonly HerdRequest _request;

    public TestResultIntake(ReceivedBody body, HerdRequest request, HerdView view, TubeRegister tubes)
    {
        (_body, _request) = (body, request);
        _answers = new TestResultAnswer?[body.Batch.Items.Count];
        _lines = new ReceivedLine[_answers.Length];
        var reader = new TestResultReader(request, body.Sender);
        var matcher = new ResultMatcher(view, tubes);
        foreach (var item in body.Batch.Items)
        {
            Take(item, reader, matcher);
        }
    }

    /// <summary>The facts of those that are tied, each with its place in the batch.</summary>
    public IReadOnlyList<(int Index, FactDraft Draft)> Tied => _tied;

    /// <summary>Why an item is rejected; empty = it is not.</summary>
    public IReadOnlyList<ItemProblem> Refused(int index) => _answers[index]?.Problems ?? [];

    public Submission Submission => new(_tied.ConvertAll(t => t.Draft), _held.ConvertAll(h => h.Draft))
    {
        Received = new ReceivedBatch(
            _body.Sender ?? _request.Caller.Name, _request.Caller.Name, _body.File, _body.Batch.MediaType, _body.Batch.Header, _lines),
    };

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

        for (var i = 0; i < _answers.Length; i++)
        {
            _answers[i] = _answers[i]! with { Line = _lines[i].Line };
        }

        return new TestResultAnswers { Results = _answers! };
    }

    private void Take(BatchItem item, TestResultReader reader, ResultMatcher matcher)
    {
        var problems = new FieldProblems();
        var (result, sourceId) = item.Unreadable is null ? reader.Read(item, problems) : (null, null);
        if (result is null)
        {
            Reject(item, sourceId, item.Unreadable is { } unreadable ? [unreadable] : problems.List);
            return;
        }

        var match = matcher.Tie(result);
        var identity = (result.Fact.Source, result.Fact.SourceId);
        if (match.HeldFor is null)
        {
            _lines[item.Index] = Line(item, result) with { Fact = _tied.Count };
            _tied.Add((item.Index, new FactDraft(match.Animal!, WithTube(result.Fact, match))));
            _identities.Add(identity);
        }
        else if (_identities.Contains(identity))
        {
            RefuseSecond(item, result, match);
        }
        else
        {
            _lines[item.Index] = Line(item, result) with { Held = _held.Count, Why = match.HeldFor };
            _held.Add((item.Index, TestResultMapping.Hold(result, match, item.Element.GetRawText())));
        }
    }

    // As the label says it: the calendar compares it with the sample's.
    private static Fact WithTube(Fact fact, Match match) => match.Tube is { } tube && fact is TestResult result ? result with { Tube = tube } : fact;

    // The store holds what is to be held before it appends the rest, so the later word would not be the one that counts.
    private void RefuseSecond(BatchItem item, ReceivedResult result, Match match)
    {
        var problems = new FieldProblems();
        problems.Add(ProblemTypes.SentTwice, "sourceId", result.Fact.SourceId, "each sourceId once, where one of them would be held",
            $"This batch already says of '{result.Fact.SourceId}' whose result it is; this item would be held as {match.HeldFor}.");
        Reject(item, result.Fact.SourceId, problems.List);
    }

    private void Reject(BatchItem item, string? sourceId, IReadOnlyList<FieldProblem> problems)
    {
        _answers[item.Index] = TestResultMapping.Rejected(item, sourceId, problems);
        _lines[item.Index] = new ReceivedLine(item.Line, Raw(item), null, sourceId) { Why = string.Join(" ", problems.Select(p => p.Detail)) };
    }

    private static ReceivedLine Line(BatchItem item, ReceivedResult result) => new(item.Line, Raw(item), result.Fact.Source, result.Fact.SourceId);

    private static string Raw(BatchItem item) => item.Raw ?? item.Element.GetRawText();
}
