using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Rounds;
using ReproLink.Calendar.Testing;

namespace ReproLink.Calendar.Status;

public sealed partial class HistoryFold
{
    private List<Day>? _resultDays;
    private Dictionary<FactId, Sample>? _spoiled;
    private List<(TestResult Fact, Outcome? Outcome)>? _resultsOfDay;

    // All blood and milk results of one sample day are judged together (T7 d). Returns the index of the last fact consumed.
    private int FoldResultsOfDay(Fact[] facts, int first)
    {
        var day = facts[first].Day;
        var last = first;
        var results = _resultsOfDay ??= [];
        results.Clear();
        for (var i = first; i < facts.Length && facts[i].Day == day; i++)
        {
            if (facts[i] is Sample sample)
            {
                _state.Add(sample);
            }
            else if (facts[i] is TestResult result)
            {
                if (result.Known <= _knownBy)
                {
                    results.Add((result, Values.Effective(result, _rules)));
                }
            }
            else
            {
                break;
            }

            last = i;
        }

        if (results.Count > 0)
        {
            SetSpoiledAside(results, facts, first, last);
            (_resultDays ??= []).Add(day);
            NoteSpoiled(results, day);
            if (OutrankingExamination(facts, last, day) is { } examination)
            {
                JudgeAll(results, Decision.Nothing, Because("T6", "an examination of the same day outranks it", examination));
            }
            else
            {
                FoldResults(results, day);
            }
        }

        return last;
    }

    private FactId? OutrankingExamination(Fact[] facts, int from, Day day)
    {
        for (var i = from; i < facts.Length && facts[i].Day == day; i++)
        {
            if (facts[i] is Examination examination && Exists(examination) && Decides(examination))
            {
                return examination.Id;
            }
        }

        return null;
    }

    private void FoldResults(List<(TestResult Fact, Outcome? Outcome)> results, Day day)
    {
        if (TooEarlyForBlood(day) is { } tooEarly)
        {
            PresumeIfDoubtful(results, day);
            JudgeAll(results, Decision.Nothing, tooEarly);
            return;
        }

        var method = Test(day).Method;
        (TestResult Fact, Outcome Outcome)? said = null;
        FactId? contradicts = null;
        foreach (var (fact, outcome) in results)
        {
            if (fact.Method == TestMethod.Milk && method != TestMethod.Milk)
            {
                PresumeIfDoubtful([(fact, outcome)], day);
                Judge(fact, outcome, Decision.Nothing, Because("T1", "no milk test is configured: a milk result decides nothing", fact.Id));
            }
            else if (outcome is null)
            {
                Judge(fact, outcome, Decision.Nothing, Because("T8", "its value cannot be turned into an outcome: another assay or unit, or no cut-offs", fact.Id));
            }
            else if (outcome == Outcome.Invalid)
            {
                Judge(fact, outcome, Decision.Nothing, SpoiledReason(fact));
            }
            else if (said is null)
            {
                said = (fact, outcome.Value);
            }
            else if (said.Value.Outcome != outcome)
            {
                contradicts = fact.Id;
            }
        }

        if (contradicts is not null)
        {
            Disagree(results, day, said!.Value.Fact.Id, contradicts.Value);
        }
        else if (said is { } one)
        {
            var (decision, reason) = FoldBlood(one.Fact, one.Outcome, day);
            foreach (var (fact, outcome) in results)
            {
                if (outcome == one.Outcome)
                {
                    Judge(fact, outcome, decision, reason);
                }
            }
        }
    }

    // Whether it could have decided anything is asked when she needs a sample again (W1).
    private void NoteSpoiled(List<(TestResult Fact, Outcome? Outcome)> results, Day day)
    {
        TestResult? last = null;
        foreach (var (fact, outcome) in results)
        {
            if (fact.Method != TestMethod.Milk || Test(day).Method == TestMethod.Milk)
            {
                if (outcome != Outcome.Invalid)
                {
                    return;
                }

                last = fact;
            }
        }

        _state.Invalid = last ?? _state.Invalid;
    }

    private void Disagree(List<(TestResult Fact, Outcome? Outcome)> results, Day day, FactId one, FactId other)
    {
        Raise(new Conflict(ConflictKind.ResultsDisagree, day, other, one, null), $"results of {day.ToSentence()} disagree: only an examination decides");
        foreach (var (fact, outcome) in results)
        {
            if (outcome is Outcome.Open or Outcome.Pregnant or Outcome.Recheck)
            {
                Judge(fact, outcome, Decision.Nothing, Because("T7 d", "results of one day disagree", one, other));
            }
        }
    }

    // T2 and T3: residual protein of an earlier pregnancy. Returns why it is too early; null = it is not.
    private Reason? TooEarlyForBlood(Day day)
    {
        var test = Test(day);
        if (_state.LastCalving is { } calving && day - calving.Day < test.MinDaysInMilk)
        {
            return Because("T2", $"sampled {day - calving.Day} days after calving: a sample counts from day {test.MinDaysInMilk}", calving.Id);
        }

        foreach (var loss in _state.EachLoss)
        {
            if (day - loss.Fact.Day < loss.ClearanceDays(test))
            {
                return Because("T3", $"sampled {day - loss.Fact.Day} days after a loss: a sample counts from day {loss.ClearanceDays(test)}", loss.Fact.Id);
            }
        }

        return null;
    }

    // L3: a sample that waited too long decides nothing, whatever was found in it. Found pregnant or doubtful, it still withholds.
    private void SetSpoiledAside(List<(TestResult Fact, Outcome? Outcome)> results, Fact[] facts, int first, int last)
    {
        List<Sample>? samples = null;
        for (var i = first; i <= last; i++)
        {
            if (facts[i] is Sample sample)
            {
                (samples ??= []).Add(sample);
            }
        }

        if (samples is null || !samples.Exists(Storage.IsSpoiled))
        {
            return;
        }

        for (var i = 0; i < results.Count; i++)
        {
            var (fact, outcome) = results[i];
            if (Storage.SpoiledSampleOf(fact, samples) is not { } sample)
            {
                continue;
            }

            if (outcome is Outcome.Pregnant or Outcome.Recheck)
            {
                _state.Presumed = new PresumedPregnant(fact.Day, fact.Id);
            }

            (_spoiled ??= []).Add(fact.Id, sample);
            results[i] = (fact, Outcome.Invalid);
        }
    }

    private Reason SpoiledReason(TestResult fact) => _spoiled is not null && _spoiled.TryGetValue(fact.Id, out var sample)
        ? Because("L3", $"dispatched {sample.Dispatched!.Value - sample.Day} days after it was drawn: after {Storage.MostDays} days it decides nothing, sample again on the next sampling day", fact.Id, sample.Id)
        : Because("T5", "spoiled: changes nothing, sample again on the next sampling day", fact.Id);

    // S4: a pregnant that is set aside closes the gate; so does an inconclusive one, which is presumed pregnant for every drug (T5).
    private void PresumeIfDoubtful(List<(TestResult Fact, Outcome? Outcome)> results, Day day)
    {
        foreach (var (fact, outcome) in results)
        {
            if (outcome is Outcome.Pregnant or Outcome.Recheck)
            {
                _state.Presumed = new PresumedPregnant(day, fact.Id);
            }
        }
    }

    private (Decision, Reason) FoldBlood(TestResult fact, Outcome outcome, Day day)
    {
        if (Unanswerable(fact, day, outcome) is { } why)
        {
            PresumeIfDoubtful([(fact, outcome)], day);
            return (Decision.Nothing, why);
        }

        return outcome switch
        {
            Outcome.Open => FindOpen(fact.Id, day, Test(day).MinDaysPostService),
            Outcome.Pregnant => FindPregnant(fact.Id, day, Test(day).MinDaysPostService, byBlood: true),
            _ => FindRecheck(fact.Id, day),
        };
    }

    // What keeps a valid sample from deciding: a double recheck, a resample too soon, or a conflict it does not end.
    private Reason? Unanswerable(TestResult fact, Day day, Outcome outcome)
    {
        if (_state.Recheck is { } row)
        {
            // An inconclusive sample after the new service is set aside but keeps the days to the next (decision 0032).
            if (row.IsDouble && !IsOwnTest(row, day))
            {
                _state.Recheck = outcome == Outcome.Recheck && row.NewService is not null ? row with { Sample = day, Fact = fact.Id } : row;
                return Because("T5", "after two inconclusive samples in a row only an examination, a calving or a new service's own test decides", row.Fact);
            }

            if (outcome == Outcome.Open && day - row.Sample < Test(day).ResampleAfterDays)
            {
                return Because("T5", $"sampled {day - row.Sample} days after an inconclusive sample: an open counts from day {Test(day).ResampleAfterDays}", row.Fact);
            }
        }

        // A recheck ends no conflict, but it counts in its row.
        if (outcome == Outcome.Recheck)
        {
            return null;
        }

        foreach (var conflict in _state.EachConflict)
        {
            if (conflict.NeedsExamination)
            {
                return Because($"T7 {conflict.Letter}", "only an examination ends this conflict", conflict.RaisedBy);
            }

            if (conflict.EndsFromBy(Test(day)) is not { } from || day < from)
            {
                return Because($"T7 {conflict.Letter}", "sampled too soon to end this conflict", conflict.RaisedBy);
            }
        }

        return null;
    }

    private bool IsOwnTest(RecheckRow row, Day day) =>
        row.NewService is { } service && day - service.DayZero >= Test(day).MinDaysPostService;

    private void DropAnsweredSamples(Fact[] facts)
    {
        if (_resultDays is not null && !_state.EachSample.IsEmpty && facts.Length > 0)
        {
            _state.DropSamples(s => _resultDays.Contains(s.Day));
        }
    }

    private void JudgeAll(List<(TestResult Fact, Outcome? Outcome)> results, Decision decision, Reason reason)
    {
        foreach (var (fact, outcome) in results)
        {
            Judge(fact, outcome, decision, reason);
        }
    }

    private void Judge(TestResult fact, Outcome? outcome, Decision decision, Reason reason)
    {
        _log?.Judged(fact, decision, outcome);
        if (_trace is null)
        {
            return;
        }

        if (Values.Disagree(fact, _rules))
        {
            var warning = Reason.Of("T8", "outcome and value disagree: taken as recheck", fact.Id);
            _trace.Note(fact.Id, warning);
            _trace.Judge(fact.Id, decision, outcome, reason, warning);
        }
        else
        {
            _trace.Judge(fact.Id, decision, outcome, reason);
        }
    }
}
