using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <summary>Sentences about work: lists, sessions, the veterinarian's calendar.</summary>
public static class SayWork
{
    private const int Noon = 12;

    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    public static string Pen(string? pen) => string.IsNullOrEmpty(pen) ? T("work.no-pen-on-record") : T("work.pen", pen);

    public static string Supplies(int animals, int needles) =>
        $"{Text.Number("common.count-animals", animals)} · {Text.Number("work.tubes-and-labels", animals)} · {Text.Number("common.count-needles", needles)}";

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
        Session.Morning => T("work.morning"),
        Session.Afternoon => T("work.afternoon"),
        _ => T("work.some-time-today"),
    };

    public static string Given(StepKind step) => step switch
    {
        StepKind.InsertIn => T("work.placed"),
        StepKind.InsertOut => T("work.taken-out"),
        StepKind.Inseminate => T("common.inseminated"),
        _ => T("common.given"),
    };

    /// <summary>The agents' names in the middle of a sentence.</summary>
    public static string Small(StepKind step) => T("step.small." + ProtocolWords.Of(step));

    /// <summary>A tick that came after the gate closed: what a person must know and do now.</summary>
    public static string NotReleased(string animal, StepKind step, GateClause? clause) =>
        T("work.not-released", Say.Of(step), animal, clause is { } c ? GateWords.Sentence(c) : T("work.it-was-held-back"));

    public static string WhatNow(StepKind step) => step is StepKind.Pgf
        ? T("work.if-she-has-not-had-it-yet")
        : T("work.if-it-was-not-done-yet-do");

    /// <summary>A kind of change since the last visit, of one line.</summary>
    public static string Of(WorkChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        var what = WorkWord(change.Item);
        return change.Kind switch
        {
            WorkChangeKind.Added => $"{what}, {When(change.Now!)}",
            WorkChangeKind.Moved => T("work.from", what, When(change.Before!), When(change.Now!)),
            WorkChangeKind.Cancelled => T("work.was", what, When(change.Before!)),
            _ => $"{what}, {When(change.Now!)}: {Say.Of(change.Now!)}",
        };
    }

    public static string Of(WorkChangeKind kind) => kind switch
    {
        WorkChangeKind.Added => T("work.new"),
        WorkChangeKind.Moved => T("work.moved"),
        WorkChangeKind.Cancelled => T("work.fell-away"),
        WorkChangeKind.Released => T("work.released-may-be-done-now"),
        _ => T("work.held-back-now"),
    };

    public static string WorkWord(WorkItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.Step is { } step ? Say.Of(step) : Say.Of(item.Kind);
    }

    private static string When(WorkItem item) => Say.ShortDay(item.Date) + (item.Time is { } time ? $" {Say.Clock(time)}" : "");

    public static string Of(Work.Lane lane) => lane switch
    {
        Work.Lane.Services => T("work.calving-and-services"),
        Work.Lane.Samples => T("work.samples-and-findings"),
        Work.Lane.Steps => T("work.steps"),
        Work.Lane.Window => T("work.may-be-tested"),
        _ => T("common.pregnancy"),
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
        return band.To is { } to ? T("work.to", Say.LongDay(band.From), Say.LongDay(to)) : T("work.span-open", Say.LongDay(band.From));
    }

    public static string Month(Calendar.Dates.Day day) => Say.MonthShort(day.Date.Month);

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
        var place = line.Line is { } number ? T("work.line", number) : T("work.item", line.Item);
        return T("work.trace", place, (line.Name is { } file ? $"“{file}”" : T("work.batch", line.Batch)), line.Sender, line.Raw);
    }

    public static string Card(Calendar.Facts.AnimalCard card)
    {
        ArgumentNullException.ThrowIfNull(card);
        string?[] parts =
        [
            card.Pen is { } pen ? T("work.card-pen", pen) : null, card.Parity is { } parity ? Text.Number("work.calvings", parity) : null, card.Breed,
            card.Born is { } born ? T("work.born", Say.LongDay(born)) : null, .. card.Identifiers.Select(i => $"{i.Scheme} {i.Id}"),
        ];
        return string.Join(", ", parts.OfType<string>()) is { Length: > 0 } said ? T("work.card", said) : T("work.card-empty");
    }

    public static string Of(Calendar.Testing.Bound bound) => bound switch
    {
        Calendar.Testing.Bound.Opens => T("work.first-day"),
        Calendar.Testing.Bound.Target => T("work.wanted-day"),
        _ => T("work.last-useful-day"),
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
            parts.Add(count.Conditional == 0 ? Number(count.Planned)
                : count.Conditional == count.Planned ? T("work.all-only-if-open", count.Planned)
                : T("work.some-only-if-open", count.Planned, count.Conditional));
        }

        if (count.Held > 0)
        {
            parts.Add(T("work.held", count.Held));
        }

        return string.Join(", ", parts);
    }

    public static string Agent(Work.WorkColumn column) => column switch
    {
        Work.WorkColumn.Gnrh => Say.Of(StepKind.Gnrh),
        Work.WorkColumn.Prostaglandin => Say.Of(StepKind.Pgf),
        _ => T("common.progesterone-inserts"),
    };

    /// <summary>Why a step is held, as a heading of those held alike.</summary>
    public static string WhyHeld(WorkItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.Clause is { } clause ? GateWords.Sentence(clause) : item.Reasons is [var first, ..] ? first.Text : T("common.held-back");
    }

    /// <summary>Whether a version is approved, in a sentence.</summary>
    public static string Approval(Calendar.Programmes.ProgrammeVersion version, Calendar.Dates.Day today)
    {
        ArgumentNullException.ThrowIfNull(version);
        var later = version.Programme.InForceFrom > today ? ".later" : "";
        string Said(string key, params ReadOnlySpan<object?> values) => T($"approval.{key}{later}", [version.Number, Say.LongDay(version.Programme.InForceFrom), .. values]);
        if (version.Approvals.LastOrDefault(a => !(a.Expires < today) && !version.Refusals.Any(r => r.Ends(a))) is { } approval)
        {
            return approval.Expires is { } until ? Said("until", approval.By, Say.LongDay(until)) : Said("given", approval.By);
        }

        return Said(version.StandingRefusal is not null ? "refused" : version.Approvals.Count > 0 ? "ended" : "waits");
    }
}
