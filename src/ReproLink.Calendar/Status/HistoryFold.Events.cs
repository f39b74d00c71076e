using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Status;

public sealed partial class HistoryFold
{
    /// <summary>Inseminations at most this many days apart are one service (common practice).</summary>
    public const int SameServiceDays = 3;

    /// <summary>T7 f: fewest days from the day that dates a pregnancy to a calving that fits it.</summary>
    public const int ShortestGestationDays = 260;

    /// <summary>T7 f: fewest days from the latest service to any calving.</summary>
    public const int ShortestSinceServiceDays = 200;

    /// <summary>T7 a, b, c: days after the raising fact before another sample may end the conflict.</summary>
    public const int SecondSampleDays = 7;

    /// <summary>T7 g: days after prostaglandin before a blood sample tells anything (the protein outlasts the pregnancy).</summary>
    public const int AfterProstaglandinDays = 21;

    // Of all lactations: a second calving soon after the first is as impossible as the first.
    private Service? _latestService;

    private TestRules Test(Day on) => _state.GoverningProgramme(_rules, on).Test;

    private void Calve(Calving calving)
    {
        var before = _state.Underneath;
        var tooSoon = TooSoonAfter(calving);
        var wasOpen = before == AnimalStatus.Open ? _state.LastOpen : null;
        StartLactation(calving);
        _log?.Calved(calving);
        if (IsConfirmed(calving))
        {
            return;
        }

        if (wasOpen is not null)
        {
            Raise(new Conflict(ConflictKind.CalvedWhileOpen, calving.Day, calving.Id, wasOpen.Fact, null),
                "calved while her status was open: one of the two is wrong, examine her or confirm the calving");
        }

        if (tooSoon is { } against)
        {
            Raise(new Conflict(ConflictKind.CalvedTooSoon, calving.Day, calving.Id, against, null),
                "calved too soon after the service that dates her or after the latest service: examine her or confirm the calving");
        }
    }

    // T7 f. The fact that the calving comes too soon after; null = it does not.
    private FactId? TooSoonAfter(Calving calving)
    {
        if (_state.Pregnancy is { From: { } from } pregnancy && calving.Day - from < ShortestGestationDays)
        {
            return pregnancy.By?.Fact.Id ?? pregnancy.ByExposure?.Fact.Id;
        }

        return _latestService is { } latest && calving.Day - latest.DayZero < ShortestSinceServiceDays ? latest.Id : null;
    }

    private void StartLactation(Calving calving)
    {
        if (_calvingDays is null || _calvingDays[^1] != calving.Day)
        {
            (_calvingDays ??= []).Add(calving.Day);
        }

        _state.LastCalving = calving;
        _state.StartLactation(calving.Day);
        _state.Pregnancy = null;
        _state.Recheck = null;
        _state.Invalid = null;
        _state.Presumed = null;
        _state.LastOpen = null;
        _state.DryOff = null;
    }

    private void Lose(Loss loss)
    {
        var record = new LossRecord(loss, AgeOfLost(loss.Day));
        _state.Add(record);
        _log?.Lost(loss);
        if (loss.Examined)
        {
            LoseExamined(loss);
            return;
        }

        // The pregnancy stays underneath until a test or examination decides: the report may be wrong. T3 keeps samples away.
        var tells = loss.Day + record.ClearanceDays(Test(loss.Day));
        Raise(new Conflict(ConflictKind.LossNotExamined, loss.Day, loss.Id, null, loss.Day),
            $"a loss recorded without an examination: blood tells from {tells.ToSentence()}");
    }

    // The oldest pregnancy it can have been: of a known pregnancy its first possible day, else the oldest service not failed.
    private int? AgeOfLost(Day day)
    {
        if (_state.Pregnancy is { } pregnancy)
        {
            return pregnancy.From is { } from ? day - from : null;
        }

        Day? oldest = null;
        foreach (var service in _state.EachService)
        {
            if (service.FailedBy is null)
            {
                oldest = Day.Min(oldest ?? service.DayZero, service.DayZero);
            }
        }

        foreach (var spell in _state.EachExposure)
        {
            if (spell.FailedBy is null)
            {
                oldest = Day.Min(oldest ?? spell.First, spell.First);
            }
        }

        return oldest is { } zero ? day - zero : null;
    }

    private void SeeOestrus(Oestrus oestrus)
    {
        if (_state.Pregnancy is { } pregnancy)
        {
            Raise(new Conflict(ConflictKind.ServedAfterPregnant, oestrus.Day, oestrus.Id, pregnancy.FoundBy, oestrus.Day + SecondSampleDays),
                "seen in oestrus after she was found pregnant");
        }
    }

    private void Serve(Service service)
    {
        if (_latestService is not { } latest || service.DayZero >= latest.DayZero)
        {
            _latestService = service;
        }

        var attempt = Join(service) ?? Add(service);
        if (_state.Recheck is { } row)
        {
            _state.Recheck = row with { NewService = attempt };
        }

        if (_state.Pregnancy is { } pregnancy)
        {
            EndConflictsOf(attempt);
            var ends = attempt.DayZero + Test(service.Day).MinDaysPostService;
            Raise(new Conflict(ConflictKind.ServedAfterPregnant, service.Day, service.Id, pregnancy.FoundBy, ends) { LaterService = attempt },
                "served after she was found pregnant");
        }
    }

    private void EndConflictsOf(ServiceAttempt attempt) => _state.EndConflicts(c => c.LaterService == attempt);

    private ServiceAttempt Add(Service service)
    {
        var attempt = new ServiceAttempt(service);
        _state.Add(attempt);
        _log?.Served(attempt);
        return attempt;
    }

    private ServiceAttempt? Join(Service service)
    {
        if (service is not Insemination)
        {
            return null;
        }

        var services = _state.EachService;
        for (var i = services.Length - 1; i >= 0; i--)
        {
            var earlier = services[i];
            if (earlier.Fact is Insemination && service.Day - earlier.Fact.Day <= SameServiceDays && earlier.FailedBy is null)
            {
                earlier.Fact = service;
                _state.MoveToEnd(i);
                return earlier;
            }
        }

        return null;
    }

    private void Expose(Exposure exposure)
    {
        // "An until after asOf counts as absent": the bull is still in.
        var last = exposure.Until is { } until && until <= _state.AsOf ? until : (Day?)null;
        // T4: it counts for the lactation if its last day is after the calving.
        if (last <= _state.LastCalving?.Day)
        {
            return;
        }

        var spell = new ExposureSpell(exposure, exposure.Day, last);
        _state.Add(spell);
        _log?.Exposed(spell);
        if (_state.Pregnancy is { } pregnancy)
        {
            Day? ends = last is { } day ? day + Test(exposure.Day).MinDaysPostService : null;
            Raise(new Conflict(ConflictKind.ServedAfterPregnant, exposure.Day, exposure.Id, pregnancy.FoundBy, ends) { LaterExposure = spell },
                "put with a bull after she was found pregnant");
        }
    }

    private void Treat(Treatment treatment)
    {
        var status = _state.Underneath;
        if (treatment is { Agent: Agent.Pgf, NotDone: false } && status is not (AnimalStatus.Open or AnimalStatus.NotServed))
        {
            Raise(new Conflict(ConflictKind.ProstaglandinGiven, treatment.Day, treatment.Id, _state.Pregnancy?.FoundBy, treatment.Day + AfterProstaglandinDays),
                $"prostaglandin recorded while she was {StatusWords.Of(status)}: call the veterinarian; blood tells from {(treatment.Day + AfterProstaglandinDays).ToSentence()}");
        }

        _state.Add(treatment);
    }
}
