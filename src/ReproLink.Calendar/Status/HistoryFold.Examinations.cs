using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Status;

public sealed partial class HistoryFold
{
    /// <summary>T6: first day after service of an ultrasound examination (source: extension sheets, 26–30 days).</summary>
    public const int UltrasoundFromDay = 28;

    /// <summary>T6: first day after service of a palpation (source: extension sheets, 35–45 days).</summary>
    public const int PalpationFromDay = 35;

    private Day? _examinedDay;
    private Loss? _lossSeen;

    private static int FirstDay(Examination examination) =>
        examination.Method == TestMethod.Palpation ? PalpationFromDay : UltrasoundFromDay;

    private bool Exists(Examination examination) => examination.Known is not { } known || known <= _knownBy;

    private bool Decides(Examination examination) =>
        examination.Outcome != Outcome.Invalid && IsOldEnough(examination.Day, FirstDay(examination), examination.Outcome);

    // Whether there is anything an examination of that day can see: something old enough, or nothing served at all. An open
    // says something of an exposure only by its last day.
    private bool IsOldEnough(Day day, int firstDay, Outcome outcome)
    {
        if (_state.Pregnancy is { } pregnancy && (pregnancy.From is not { } from || day - from >= firstDay))
        {
            return true;
        }

        // Where everything failed, what failed must be old enough to be seen: else it would outrank blood that sees it.
        var failed = !_state.HasCandidate;
        foreach (var service in _state.EachService)
        {
            if (service.FailedBy is null != failed && day - service.DayZero >= firstDay)
            {
                return true;
            }
        }

        foreach (var spell in _state.EachExposure)
        {
            var bound = outcome == Outcome.Open ? spell.Last : spell.First;
            if (spell.FailedBy is null != failed && bound is { } seen && day - seen >= firstDay)
            {
                return true;
            }
        }

        return _state is { Services.Count: 0, Exposures.Count: 0 };
    }

    // All examinations of one day are judged together: when they disagree, T7 d.
    private void Examine(Examination examination, Fact[] facts, int index)
    {
        if (_examinedDay == examination.Day)
        {
            return;
        }

        _examinedDay = examination.Day;
        List<Examination>? deciding = null;
        for (var i = index; i < facts.Length && facts[i] is Examination one && one.Day == examination.Day; i++)
        {
            if (!Exists(one))
            {
                continue;
            }

            if (Decides(one))
            {
                (deciding ??= []).Add(one);
            }
            else
            {
                SetAside(one);
            }
        }

        if (deciding is not null)
        {
            Decide(deciding);
        }
    }

    private void SetAside(Examination examination)
    {
        if (examination.Outcome is Outcome.Pregnant or Outcome.Recheck)
        {
            _state.Presumed = new PresumedPregnant(examination.Day, examination.Id);
        }

        _log?.Judged(examination, Decision.Nothing, examination.Outcome);
        _trace?.Judge(examination.Id, Decision.Nothing, examination.Outcome, examination.Outcome == Outcome.Invalid
            ? Because("T5", "could not be judged: changes nothing", examination.Id)
            : Because("T6", $"examined fewer than {FirstDay(examination)} days after the service: decides nothing", examination.Id));
    }

    private void Decide(List<Examination> examinations)
    {
        var first = examinations[0];
        var other = examinations.Find(e => e.Outcome != first.Outcome)?.Id ?? SeenLost(first);
        if (other is { } contrary)
        {
            Raise(new Conflict(ConflictKind.ResultsDisagree, first.Day, contrary, first.Id, null),
                $"examinations of {first.Day.ToSentence()} disagree: only another examination decides");
        }

        var (decision, reason) = other is { } against
            ? (Decision.Nothing, Because("T7 d", "examinations of one day disagree", first.Id, against))
            : Find(first, examinations.Min(FirstDay));
        foreach (var one in examinations)
        {
            _log?.Judged(one, decision, one.Outcome);
            _trace?.Judge(one.Id, decision, one.Outcome, reason);
        }
    }

    // A loss seen by examination is an open of its day: the others of that day must agree with it (T6, T7 d).
    private FactId? SeenLost(Examination examination) =>
        examination.Outcome != Outcome.Open && _lossSeen is { } loss && loss.Day == examination.Day ? loss.Id : null;

    private (Decision, Reason) Find(Examination examination, int firstDay) => examination.Outcome switch
    {
        Outcome.Open => ApplyOpen(examination.Id, examination.Day, firstDay, byExamination: true),
        Outcome.Pregnant => FindPregnant(examination.Id, examination.Day, firstDay, byBlood: false),
        _ => FindRecheck(examination.Id, examination.Day),
    };

    // A loss recorded with an examination is also an examination open of that day (T6). The lost pregnancy's own service
    // failed whatever its age.
    private void LoseExamined(Loss loss)
    {
        _lossSeen = loss;
        if (_state.Pregnancy is not null || IsOldEnough(loss.Day, UltrasoundFromDay, Outcome.Open))
        {
            ApplyOpen(loss.Id, loss.Day, UltrasoundFromDay, byExamination: true);
        }
    }
}
