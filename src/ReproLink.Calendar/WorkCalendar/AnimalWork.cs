using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>Examinations, alerts, and what a pregnancy asks for.</summary>
internal static class AnimalWork
{
    public static void AddTo(List<WorkItem> items, AnimalState animal, HerdRules rules, Day asOf)
    {
        // One line for one fact that calls for an examination, with everything it raised.
        foreach (var about in Examinations(animal).GroupBy(e => e.About))
        {
            Examine(items, animal, about.Select(e => e.Day).Min(), [.. about.Select(e => e.Reason)], about.Key, asOf);
        }

        foreach (var conflict in animal.Conflicts)
        {
            if (conflict.Kind == ConflictKind.ProstaglandinGiven)
            {
                Repeat(items, new WorkItem(WorkIds.Of(animal.Animal, "alert", conflict.RaisedBy.ToString()), conflict.Since, WorkKind.Alert, StepState.Firm)
                {
                    Animal = animal,
                    Reasons = [ConflictReasons.Of(conflict, animal)],
                }, asOf);
            }
        }

        if (animal.Pregnancy is { } pregnancy)
        {
            Confirm(items, animal, pregnancy, rules, asOf);
            Calendar(items, animal, pregnancy, rules);
        }
    }

    private static IEnumerable<(FactId About, Day Day, Reason Reason)> Examinations(AnimalState animal)
    {
        foreach (var conflict in animal.Conflicts.Where(c => c.NeedsExamination))
        {
            yield return (conflict.RaisedBy, conflict.Since, ConflictReasons.Of(conflict, animal));
        }

        if (animal.Recheck is { IsDouble: true, NewService: null } row)
        {
            yield return (row.Fact, row.Sample, Reason.Of("T5", "inconclusive twice in a row: an examination decides", row.Fact));
        }
    }

    private static void Examine(List<WorkItem> items, AnimalState animal, Day day, IReadOnlyList<Reason> reasons, FactId about, Day asOf) =>
        Repeat(items, new WorkItem(WorkIds.Of(animal.Animal, "examine", about.ToString()), day, WorkKind.Examine, StepState.Firm)
        {
            Session = Session.Morning,
            Animal = animal,
            Reasons = reasons,
        }, asOf);

    // On its own day, and today until it is ended.
    private static void Repeat(List<WorkItem> items, WorkItem item, Day asOf)
    {
        items.Add(item);
        if (item.Date < asOf)
        {
            items.Add(item with { Date = asOf, IsRepeat = true, Id = WorkIds.Of(item.Id, "today") });
        }
    }

    // Confirmations by examination; those by blood come from the bleed list.
    private static void Confirm(List<WorkItem> items, AnimalState animal, Pregnancy pregnancy, HerdRules rules, Day asOf)
    {
        if (pregnancy.To is not { } dated || animal.Underneath is not (AnimalStatus.Pregnant or AnimalStatus.PregnantCaution))
        {
            return;
        }

        var windows = animal.GoverningProgramme(rules, asOf).Confirmations.OrderBy(w => w.From).ToList();
        for (var i = 0; i < windows.Count; i++)
        {
            var (from, to) = (dated + windows[i].From, dated + windows[i].To);
            var missed = i + 1 < windows.Count && dated + windows[i + 1].From <= asOf;
            if (!windows[i].Method.IsExamination() || missed || pregnancy.LastPositive >= from)
            {
                continue;
            }

            items.Add(new WorkItem(WorkIds.Of(animal.Animal, "confirm", pregnancy.FoundBy.ToString(), from.ToString()), Day.Max(from, asOf), WorkKind.Confirmation, StepState.Firm)
            {
                Session = Session.Morning,
                Animal = animal,
                Overdue = asOf > to,
                Reasons = [new Reason("W1", from, $"confirm by {(windows[i].Method == TestMethod.Palpation ? "palpation" : "ultrasound")} from {from.ToSentence()} to {to.ToSentence()}", [pregnancy.FoundBy])],
            });
        }
    }

    private static void Calendar(List<WorkItem> items, AnimalState animal, Pregnancy pregnancy, HerdRules rules)
    {
        if (PregnancyDates.Of(animal, rules) is not { } dates)
        {
            return;
        }

        // A recheck or conflict in a pregnancy keeps the dates, shown held (5.3).
        var state = animal.Recheck is null && animal.Conflicts.Count == 0 ? StepState.Firm : StepState.Held;
        var reason = new Reason("5.8", dates.Due, $"due by day 0, {dates.From.ToSentence()}, and the gestation length of the breed", [pregnancy.FoundBy]);
        if (dates.DryOff is { } dryOff)
        {
            items.Add(new WorkItem(WorkIds.Of(animal.Animal, "dry-off", pregnancy.FoundBy.ToString()), dryOff, WorkKind.DryOff, animal.DryOff is null ? state : StepState.Done)
            {
                Animal = animal,
                Reasons = [animal.DryOff is { } done ? Reason.Of("5.8", "recorded", done.Id) : reason],
            });
        }

        items.Add(new WorkItem(WorkIds.Of(animal.Animal, "calving-due", pregnancy.FoundBy.ToString()), dates.Due, WorkKind.CalvingDue, state)
        {
            Animal = animal,
            Reasons = [reason],
        });
    }
}
