using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;

namespace ReproLink.Web.Words;

/// <summary>Sentences about work: lists, sessions, the veterinarian's calendar.</summary>
public static class SayWork
{
    private const int Noon = 12;

    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    public static string Pen(string? pen) => string.IsNullOrEmpty(pen) ? "No pen on record" : $"Pen {pen}";

    public static string Supplies(int animals, int needles) =>
        $"{Say.Count(animals, "animal", "animals")} · {Say.Count(animals, "tube and label", "tubes and labels")} · {Say.Count(needles, "needle", "needles")}";

    /// <summary>An address with those of the values that are there.</summary>
    public static string Address(string path, params ReadOnlySpan<(string Name, string? Value)> query)
    {
        var text = path;
        foreach (var (name, value) in query)
        {
            if (!string.IsNullOrEmpty(value))
            {
                text += $"{(text.Contains('?', StringComparison.Ordinal) ? '&' : '?')}{name}={Uri.EscapeDataString(value)}";
            }
        }

        return text;
    }

    /// <summary>The session a line belongs to; null = any time of the day.</summary>
    public static Session? SessionOf(WorkItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item switch
        {
            { Session: { } session } => session,
            { Time: { } time } => time.Hour < Noon ? Session.Morning : Session.Afternoon,
            _ => null,
        };
    }

    public static string Of(Session? session) => session switch
    {
        Session.Morning => "Morning",
        Session.Afternoon => "Afternoon",
        _ => "Some time today",
    };

    public static string Given(StepKind step) => step switch
    {
        StepKind.InsertIn => "placed",
        StepKind.InsertOut => "taken out",
        StepKind.Inseminate => "inseminated",
        _ => "given",
    };

    /// <summary>The agents' names in the middle of a sentence.</summary>
    public static string Small(StepKind step) => step == StepKind.Gnrh ? "GnRH" : Say.Of(step).ToLowerInvariant();

    /// <summary>A tick that came after the gate closed: what a person must know and do now.</summary>
    public static string NotReleased(string animal, StepKind step, GateClause? clause) =>
        $"{Say.Of(step)} was recorded for {animal}, but it was NOT released: {(clause is { } c ? GateWords.Sentence(c) : "it was held back")}.";

    public static string WhatNow(StepKind step) => step is StepKind.Pgf
        ? "If she has not had it yet: do not give it, and undo this record. If she has had it: call the veterinarian now."
        : "If it was not done yet: do not do it, and undo this record. If it was done: tell the veterinarian.";

    /// <summary>A kind of change since the last visit, of one line.</summary>
    public static string Of(WorkChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        var what = WorkWord(change.Item);
        return change.Kind switch
        {
            WorkChangeKind.Added => $"{what}, {When(change.Now!)}",
            WorkChangeKind.Moved => $"{what}, from {When(change.Before!)} to {When(change.Now!)}",
            WorkChangeKind.Cancelled => $"{what}, was {When(change.Before!)}",
            _ => $"{what}, {When(change.Now!)}: {Say.Of(change.Now!)}",
        };
    }

    public static string Of(WorkChangeKind kind) => kind switch
    {
        WorkChangeKind.Added => "New",
        WorkChangeKind.Moved => "Moved",
        WorkChangeKind.Cancelled => "Fell away",
        WorkChangeKind.Released => "Released: may be done now",
        _ => "Held back now",
    };

    public static string WorkWord(WorkItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.Step is { } step ? Say.Of(step) : Say.Of(item.Kind);
    }

    private static string When(WorkItem item) => Say.ShortDay(item.Date) + (item.Time is { } time ? $" {Say.Clock(time)}" : "");

    public static string Of(Work.Lane lane) => lane switch
    {
        Work.Lane.Services => "Calving and services",
        Work.Lane.Samples => "Samples and findings",
        Work.Lane.Steps => "Steps",
        Work.Lane.Window => "May be tested",
        _ => "Pregnancy",
    };

    public static string Of(Work.LactationMark mark)
    {
        ArgumentNullException.ThrowIfNull(mark);
        return $"{Say.LongDay(mark.Day)}: {mark.Words}";
    }

    public static string Of(Work.LactationBand band)
    {
        ArgumentNullException.ThrowIfNull(band);
        return $"{Span(band)}: {band.Words}";
    }

    public static string Span(Work.LactationBand band)
    {
        ArgumentNullException.ThrowIfNull(band);
        return band.To is { } to ? $"{Say.LongDay(band.From)} to {Say.LongDay(to)}" : $"from {Say.LongDay(band.From)} on";
    }

    public static string Month(Calendar.Dates.Day day) => Text.T($"month.short.{day.Date.Month}");

    public static string Letter(Calendar.Facts.Agent agent) => agent switch
    {
        Calendar.Facts.Agent.Gnrh => "G",
        Calendar.Facts.Agent.Pgf => "F",
        _ => "I",
    };

    public static string Letter(StepKind step) => step switch
    {
        StepKind.Gnrh => "G",
        StepKind.Pgf => "F",
        StepKind.Inseminate => "A",
        StepKind.WatchOestrus => "W",
        _ => "I",
    };

    /// <summary>An instant on the herd's clock.</summary>
    public static string Moment(Instant at, DateTimeZone zone)
    {
        var local = at.InZone(zone).LocalDateTime;
        return $"{Say.ShortDate(Calendar.Dates.Day.From(local.Date))} {Say.Clock(local.TimeOfDay)}";
    }

    /// <summary>Where a result came from: file and line as received.</summary>
    public static string Trace(StoredLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var place = line.Line is { } number ? $"line {number}" : $"item {line.Item}";
        return $"{place} of {(line.Name is { } file ? $"“{file}”" : $"batch {line.Batch}")} from {line.Sender}: {line.Raw}";
    }

    public static string Card(Calendar.Facts.AnimalCard card)
    {
        ArgumentNullException.ThrowIfNull(card);
        string?[] parts =
        [
            card.Pen is { } pen ? $"pen {pen}" : null, card.Parity is { } parity ? Say.Count(parity, "calving", "calvings") : null, card.Breed,
            card.Born is { } born ? $"born {Say.LongDay(born)}" : null, .. card.Identifiers.Select(i => $"{i.Scheme} {i.Id}"),
        ];
        return "card: " + (string.Join(", ", parts.OfType<string>()) is { Length: > 0 } said ? said : "nothing more");
    }

    public static string Of(Calendar.Testing.Bound bound) => bound switch
    {
        Calendar.Testing.Bound.Opens => "first day",
        Calendar.Testing.Bound.Target => "wanted day",
        _ => "last useful day",
    };

    public static string Week(Work.GridWeek week)
    {
        ArgumentNullException.ThrowIfNull(week);
        return week.From == week.To ? Say.ShortDay(week.From) : $"{Say.ShortDay(week.From)} – {Say.ShortDay(week.To)}";
    }

    /// <summary>A count of drug steps in words.</summary>
    public static string Of(Work.WorkCount count)
    {
        var parts = new List<string>();
        if (count.Planned > 0)
        {
            parts.Add(Number(count.Planned) + (count.Conditional > 0 ? $", {(count.Conditional == count.Planned ? "all" : Number(count.Conditional))} only if open" : ""));
        }

        if (count.Held > 0)
        {
            parts.Add($"{count.Held} held");
        }

        return string.Join(", ", parts);
    }

    public static string Agent(Work.WorkColumn column) => column switch
    {
        Work.WorkColumn.Gnrh => Say.Of(StepKind.Gnrh),
        Work.WorkColumn.Prostaglandin => Say.Of(StepKind.Pgf),
        _ => "Progesterone inserts",
    };

    /// <summary>Why a step is held, as a heading of those held alike.</summary>
    public static string WhyHeld(WorkItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.Clause is { } clause ? GateWords.Sentence(clause) : item.Reasons is [var first, ..] ? first.Text : "held back";
    }

    /// <summary>Whether a version is approved, in a sentence.</summary>
    public static string Approval(Calendar.Programmes.ProgrammeVersion version, Calendar.Dates.Day today)
    {
        ArgumentNullException.ThrowIfNull(version);
        var name = $"Version {version.Number}{(version.Programme.InForceFrom > today ? $", in force from {Say.LongDay(version.Programme.InForceFrom)}," : "")}";
        if (version.Approvals.LastOrDefault(a => !(a.Expires < today) && !version.Refusals.Any(r => r.Ends(a))) is { } approval)
        {
            return $"{name} is approved by {approval.By}{(approval.Expires is { } until ? $" until {Say.LongDay(until)}" : "")}.";
        }

        return version.StandingRefusal is not null ? $"{name} is refused: no drug step is released."
            : version.Approvals.Count > 0 ? $"The approval of {(name[..1].ToLowerInvariant() + name[1..])} has ended: no drug step is released."
            : $"{name} waits for the veterinarian's approval: no drug step is released.";
    }
}
