using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Status;

public sealed partial class HistoryFold
{
    // T5 open, for a blood or milk sample that may decide.
    private (Decision, Reason) FindOpen(FactId fact, Day day, int firstDay)
    {
        var endsConflict = !_state.EachConflict.IsEmpty;
        if (_state.Pregnancy is { } pregnancy && !endsConflict && !AcceptsOpen(pregnancy, day))
        {
            _state.Recheck = null;
            Raise(new Conflict(ConflictKind.OpenAfterPregnant, day, fact, pregnancy.FoundBy, day + SecondSampleDays),
                $"open after pregnant without a recorded loss: a second open from {(day + SecondSampleDays).ToSentence()}, or an examination, decides");
            return (Decision.Nothing, Because("T7 a", "open after pregnant without a recorded loss", fact, pregnancy.FoundBy));
        }

        // Also in a conflict: an open that covers nothing she was served by ends none (the reading that withholds).
        if (_state.Pregnancy is null && _state.HasCandidate && !CoversAny(day, firstDay))
        {
            return (Decision.Nothing, Because("T1", $"sampled fewer than {firstDay} days after every service still to be tested: they await their own test", fact));
        }

        return ApplyOpen(fact, day, firstDay, byExamination: false);
    }

    // Retests of a cautious pregnant are accepted (T2), of one found twice only some days later; otherwise the setting, and only in an approved version (T7 a).
    private bool AcceptsOpen(Pregnancy pregnancy, Day day)
    {
        var version = _rules.On(_state.GoverningDay(day));
        return (pregnancy.Caution && IsPastCaution(day) && !(day < pregnancy.RetestFrom))
            || (version.Programme.Test.OpenAfterPregnant == OpenAfterPregnant.Accept && version.IsApprovedOn(day));
    }

    private bool IsPastCaution(Day day) =>
        _state.LastCalving is not { } calving || day - calving.Day >= Test(day).CautionDaysInMilk;

    private (Decision, Reason) ApplyOpen(FactId fact, Day day, int firstDay, bool byExamination)
    {
        // An examination too early for the day that dates her ends other doubts, not the pregnancy.
        if (!byExamination || _state.Pregnancy?.From is not { } from || day - from >= firstDay)
        {
            EndPregnancy(fact, day, byExamination);
        }

        foreach (var service in _state.EachService)
        {
            if (service.FailedBy is null && day - service.DayZero >= firstDay)
            {
                service.FailedBy = fact;
            }
        }

        foreach (var spell in _state.EachExposure)
        {
            if (spell.FailedBy is null && spell.Last is { } last && day - last >= firstDay)
            {
                spell.FailedBy = fact;
            }
        }

        _state.EndConflicts();
        _state.Recheck = null;
        // What was set aside on the very day still speaks against it.
        if ((byExamination || !_state.HasCandidate) && _state.Presumed?.Sample < day)
        {
            _state.Presumed = null;
        }

        _state.LastOpen = new OpenFinding(day, fact, byExamination);
        return (Decision.Open, _state.HasCandidate
            ? Because("T5", "open for what it covers; a later service or the bull still awaits its own test", fact)
            : Because("T5", "open: everything served so far failed", fact));
    }

    private void EndPregnancy(FactId fact, Day day, bool byExamination)
    {
        if (_state.Pregnancy is { } ended)
        {
            _log?.Ended(ended, fact, day, byExamination);
        }

        if (_state.Pregnancy?.By is { FailedBy: null } dating)
        {
            dating.FailedBy = fact;
        }

        _state.Pregnancy = null;
    }

    private bool CoversAny(Day day, int firstDay)
    {
        foreach (var service in _state.EachService)
        {
            if (service.FailedBy is null && day - service.DayZero >= firstDay)
            {
                return true;
            }
        }

        foreach (var spell in _state.EachExposure)
        {
            if (spell.FailedBy is null && spell.Last is { } last && day - last >= firstDay)
            {
                return true;
            }
        }

        return false;
    }

    // T5 pregnant.
    private (Decision, Reason) FindPregnant(FactId fact, Day day, int firstDay, bool byBlood)
    {
        if (_state.Pregnancy is { } standing)
        {
            return StillPregnant(standing, fact, day, firstDay, byBlood);
        }

        var pregnancy = new Pregnancy(fact, day)
        {
            Caution = byBlood && _state.LastCalving is not null && !IsPastCaution(day),
        };
        if (!DateByLatestCovered(pregnancy, day, firstDay))
        {
            return FoundWithoutCovered(pregnancy, fact, day, firstDay);
        }

        Settle(pregnancy);
        return (Decision.Pregnant, Dated(pregnancy, fact));
    }

    private (Decision, Reason) StillPregnant(Pregnancy standing, FactId fact, Day day, int firstDay, bool byBlood)
    {
        foreach (var conflict in _state.EachConflict)
        {
            DateFromBoth(standing, conflict, day, firstDay);
        }

        if (day >= standing.LastPositive)
        {
            (standing.LastPositive, standing.LastPositiveBy) = (day, fact);
        }

        standing.Caution = standing.Caution && byBlood && !IsPastCaution(day);
        standing.CautionTwice = standing.Caution;

        Settle(standing);
        return (Decision.Pregnant, Because("T5", "pregnant again: her dates stay", fact, standing.FoundBy));
    }

    // A pregnant that ends T7 b dates her from both: earliest by the earlier service, latest by the later. A later service
    // too young to be seen that day does not move the dates, and an unknown age stays unknown.
    private static void DateFromBoth(Pregnancy standing, Conflict conflict, Day day, int firstDay)
    {
        Day? first = conflict.LaterService?.DayZero ?? conflict.LaterExposure?.First;
        if (first is { } from && day - from >= firstDay && standing is { From: { } earliest, To: { } latest })
        {
            var to = conflict.LaterExposure is { } spell ? Day.Min(spell.Last ?? day, day) : from;
            standing.From = Day.Min(earliest, from);
            standing.To = Day.Max(latest, to);
            standing.AlsoBy = conflict.LaterService ?? standing.AlsoBy;
        }
    }

    private void Settle(Pregnancy pregnancy)
    {
        _state.Pregnancy = pregnancy;
        _log?.Found(pregnancy);
        _state.EndConflicts();
        _state.Recheck = null;
        _state.Presumed = null;
    }

    private bool DateByLatestCovered(Pregnancy pregnancy, Day day, int firstDay)
    {
        Day? latest = null;
        foreach (var service in _state.EachService)
        {
            if (service.FailedBy is null && day - service.DayZero >= firstDay && !(service.DayZero < latest))
            {
                latest = service.DayZero;
                pregnancy.DateBy(service);
            }
        }

        foreach (var spell in _state.EachExposure)
        {
            // For pregnant an exposure is covered as soon as its first day is; its latest covered day then competes.
            var covered = Day.Min(spell.Last ?? day, day - firstDay);
            if (spell.FailedBy is null && day - spell.First >= firstDay && !(covered < latest))
            {
                latest = covered;
                pregnancy.By = null;
                pregnancy.DateBy(spell);
            }
        }

        return latest is not null;
    }

    private (Decision, Reason) FoundWithoutCovered(Pregnancy pregnancy, FactId fact, Day day, int firstDay)
    {
        var failed = LatestFailed();
        var seenBefore = _state.Has(ConflictKind.PregnantWithoutService);
        if (failed is null && (seenBefore || !_state.HasCandidate))
        {
            return FoundWithoutService(pregnancy, fact, day);
        }

        if (failed is null)
        {
            _state.Presumed = new PresumedPregnant(day, fact);
            return (Decision.Nothing, Because("T1", $"sampled fewer than {firstDay} days after the service: decides nothing, presumed pregnant until its own test", fact));
        }

        Date(pregnancy, failed);
        if (!_state.HasCandidate)
        {
            Settle(pregnancy);
            return (Decision.Pregnant, Because("T5", "pregnant by the latest service: the earlier open was wrong", fact, pregnancy.By?.Fact.Id ?? pregnancy.ByExposure!.Fact.Id));
        }

        // All older services were failed and only newer ones are left, too young to be read.
        Settle(pregnancy);
        RaiseNewerUncovered(fact, day, firstDay);
        return (Decision.Nothing, Because("T7 b", "pregnant, but the older services were failed and the newer one is too young to be read", fact));
    }

    private void RaiseNewerUncovered(FactId fact, Day day, int firstDay)
    {
        foreach (var service in _state.EachService)
        {
            if (service.FailedBy is null)
            {
                Raise(new Conflict(ConflictKind.ServedAfterPregnant, day, fact, service.Fact.Id, service.DayZero + firstDay) { LaterService = service },
                    "pregnant, but the older services were failed and the newer one is too young to be read");
            }
        }

        foreach (var spell in _state.EachExposure)
        {
            if (spell.FailedBy is null)
            {
                Raise(new Conflict(ConflictKind.ServedAfterPregnant, day, fact, spell.Fact.Id, spell.Last is { } last ? last + firstDay : null) { LaterExposure = spell },
                    "pregnant, but the older services were failed and the bull's days are too young to be read");
            }
        }
    }

    private (Decision, Reason) FoundWithoutService(Pregnancy pregnancy, FactId fact, Day day)
    {
        // A second valid pregnant ends T7 c: she is pregnant, of unknown age.
        if (_state.Has(ConflictKind.PregnantWithoutService))
        {
            pregnancy.CautionTwice = pregnancy.Caution;
            Settle(pregnancy);
            return (Decision.Pregnant, Because("T7 c", "pregnant a second time without a service on record: pregnant, of unknown age", fact));
        }

        _state.EndConflicts();
        _state.Recheck = null;
        Raise(new Conflict(ConflictKind.PregnantWithoutService, day, fact, null, day + SecondSampleDays),
            "pregnant without a service or exposure on record");
        return (Decision.Nothing, Because("T7 c", "pregnant without a service or exposure on record", fact));
    }

    private object? LatestFailed()
    {
        object? latest = null;
        Day? on = null;
        foreach (var service in _state.EachService)
        {
            if (service.FailedBy is not null && !(service.DayZero < on))
            {
                (latest, on) = (service, service.DayZero);
            }
        }

        foreach (var spell in _state.EachExposure)
        {
            if (spell is { FailedBy: not null, Last: { } last } && !(last < on))
            {
                (latest, on) = (spell, last);
            }
        }

        return latest;
    }

    private static void Date(Pregnancy pregnancy, object candidate)
    {
        if (candidate is ServiceAttempt service)
        {
            pregnancy.DateBy(service);
        }
        else
        {
            pregnancy.DateBy((ExposureSpell)candidate);
        }
    }

    private Reason Dated(Pregnancy pregnancy, FactId fact)
    {
        var by = pregnancy.By?.Fact.Id ?? pregnancy.ByExposure!.Fact.Id;
        return pregnancy.Caution
            ? Because("T2", "pregnant with caution: protein of the last pregnancy may be left, retest from day 90 in milk", fact, by)
            : Because("T5", "pregnant by the latest service the sample covers", fact, by);
    }

    private (Decision, Reason) FindRecheck(FactId fact, Day day)
    {
        var count = _state.Recheck is { NewService: null } row ? row.Count + 1 : 1;
        _state.Recheck = new RecheckRow(count, day, fact);
        return (Decision.Recheck, count >= 2
            ? Because("T5", "inconclusive a second time: presumed pregnant for every drug, an examination decides", fact)
            : Because("T5", "inconclusive: presumed pregnant for every drug, sample again", fact));
    }
}
