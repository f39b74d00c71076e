using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures.Histories;

/// <summary>All lactations of one animal, with every service settled.</summary>
internal static class AnimalRecord
{
    /// <summary>Her lactations; the first is what came before any calving on record.</summary>
    public static List<LactationRecord> Of(AnimalState state, HerdRules rules, Instant knownAt, int? waitingPeriod)
    {
        var log = HistoryFold.Log(state.History, rules, state.AsOf, knownAt);
        var records = new List<LactationRecord>(log.Lactations.Count);
        for (var i = 0; i < log.Lactations.Count; i++)
        {
            var lactation = log.Lactations[i];
            var later = log.Lactations.Count - 1 - i;
            var record = new LactationRecord(state.Animal, lactation, state.AsOf)
            {
                Parity = log.State.Parity is { } parity ? Math.Max(parity - later, 0) : null,
                Breed = state.Card?.Breed,
                NextCalving = later > 0 ? log.Lactations[i + 1].Calving!.Day : null,
                WaitingPeriod = waitingPeriod ?? WaitingPeriodOf(rules, lactation.Calving?.Day ?? state.AsOf),
            };
            Settle(record, state, rules, later == 0);
            records.Add(record);
        }

        return records;
    }

    /// <summary>The waiting period of the version in force on a day.</summary>
    public static int WaitingPeriodOf(HerdRules rules, Day day) =>
        rules.On(day).Programme.FirstService?.VoluntaryWaitingPeriodDays ?? FigureQuestion.UsualWaitingPeriod;

    private static void Settle(LactationRecord record, AnimalState state, HerdRules rules, bool isLast)
    {
        var services = record.Log.Services;
        services.Sort((a, b) => a.DayZero.CompareTo(b.DayZero));
        for (var i = 0; i < services.Count; i++)
        {
            record.Services.Add(new ServiceRecord(record, services[i]) { Number = i + 1 });
        }

        foreach (var service in record.Services)
        {
            Settle(service, state, rules, isLast);
        }

        if (record.NextCalving is { } calved)
        {
            SettleByCalving(record, calved);
        }
    }

    private static void Settle(ServiceRecord service, AnimalState state, HerdRules rules, bool isLast)
    {
        var record = service.Lactation;
        foreach (var found in record.Log.Pregnancies)
        {
            // Protein of the last pregnancy, not a pregnancy: found with caution and never confirmed (T2).
            if (found.Pregnancy.By == service.Attempt && !(found.EndedInCaution && !found.EndedByExamination))
            {
                service.Outcome = ServiceOutcome.Pregnant;
                service.FoundOn ??= found.Pregnancy.FoundOn;
                service.LostOn = found.EndedOn is { } ended ? LossOf(record, found.Pregnancy.FoundOn, ended) : null;
            }
        }

        if (service.Outcome == ServiceOutcome.Pregnant)
        {
            return;
        }

        if (service.Attempt.FailedBy is { } by)
        {
            service.Outcome = ServiceOutcome.Open;
            service.KnownOpenOn = KnownOn(record, by, rules);
        }
        else if (record.Services.Exists(later => later.Day - service.Day > HistoryFold.SameServiceDays))
        {
            service.Outcome = ServiceOutcome.Open;
        }
        else
        {
            service.Why = record.LeftOn is not null ? LeftOutReason.Left
                : isLast && state.Underneath is AnimalStatus.Recheck or AnimalStatus.Conflict ? LeftOutReason.InDoubt
                : record.NotBredFrom is not null ? LeftOutReason.NotToBeBred
                : LeftOutReason.NoAnswerYet;
        }
    }

    // The day the loss was recorded, where one was, else the day it was found.
    private static Day LossOf(LactationRecord record, Day found, Day ended)
    {
        foreach (var loss in record.Log.Losses)
        {
            if (loss.Day >= found && loss.Day <= ended)
            {
                return loss.Day;
            }
        }

        return ended;
    }

    private static Day? KnownOn(LactationRecord record, FactId by, HerdRules rules)
    {
        foreach (var result in record.Log.Results)
        {
            if (result.Fact.Id == by)
            {
                return result.Fact switch
                {
                    TestResult test => rules.DayOf(test.Known),
                    Examination { Known: { } known } => rules.DayOf(known),
                    var fact => fact.Day,
                };
            }
        }

        return record.Log.Losses.Find(l => l.Id == by)?.Day;
    }

    // A calving says which service it was, whatever was found before: of those it fits, the one found pregnant, else the
    // one nearest the middle. All others did not carry her.
    private static void SettleByCalving(LactationRecord record, Day calved)
    {
        var fitting = record.Services.FindAll(s =>
            calved - s.Day >= LactationRecord.ShortestCarried && calved - s.Day <= LactationRecord.LongestCarried);
        const int middle = (LactationRecord.ShortestCarried + LactationRecord.LongestCarried) / 2;
        var carried = fitting.Find(s => s.IsMaintained)
            ?? fitting.OrderBy(s => Math.Abs(calved - s.Day - middle)).ThenByDescending(s => s.Day).FirstOrDefault();
        foreach (var service in record.Services)
        {
            if (service == carried)
            {
                (service.Outcome, service.LostOn) = (ServiceOutcome.Pregnant, null);
            }
            else if (service.Outcome == ServiceOutcome.Unknown || (service.IsMaintained && carried is not null))
            {
                service.Outcome = ServiceOutcome.Open;
            }
        }
    }
}
