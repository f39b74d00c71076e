using System.Collections.Immutable;

namespace ReproLink.Calendar.Protocols;

/// <summary>The class of animal a protocol was published for.</summary>
public enum AnimalClass
{
    /// <summary>Dairy cow.</summary>
    DairyCow = 1,

    /// <summary>Dairy heifer.</summary>
    DairyHeifer = 2,

    /// <summary>Beef cow.</summary>
    BeefCow = 3,

    /// <summary>Beef heifer.</summary>
    BeefHeifer = 4,

    /// <summary>Any.</summary>
    Any = 5,
}

/// <summary>What a protocol is for.</summary>
public enum ProtocolUse
{
    /// <summary>First service after calving, or a heifer's first.</summary>
    FirstService = 1,

    /// <summary>After an earlier service.</summary>
    Resynchronisation = 2,

    /// <summary>Both.</summary>
    Either = 3,
}

/// <summary>How well the published schedule is known to us.</summary>
public enum Evidence
{
    /// <summary>Read in the named source.</summary>
    Seen = 1,

    /// <summary>Recalled, not re-read: not to be chosen until a veterinarian confirms it.</summary>
    Memory = 2,

    /// <summary>Common practice, or a combination of published parts.</summary>
    CommonPractice = 3,
}

/// <summary>What a step is.</summary>
public enum StepKind
{
    /// <summary>GnRH.</summary>
    Gnrh = 1,

    /// <summary>Prostaglandin F2alpha; always gated (rule S4).</summary>
    Pgf = 2,

    /// <summary>Progesterone insert placed.</summary>
    InsertIn = 3,

    /// <summary>Progesterone insert removed; never gated (rule S4).</summary>
    InsertOut = 4,

    /// <summary>Timed insemination; always gated (rule S4).</summary>
    Inseminate = 5,

    /// <summary>Watch for oestrus.</summary>
    WatchOestrus = 6,
}

/// <summary>The session in which a protocol's first step is given.</summary>
public enum Session
{
    /// <summary>The programme's morning session.</summary>
    Morning = 1,

    /// <summary>The programme's afternoon session.</summary>
    Afternoon = 2,
}

/// <summary>What happens when a step is past its tolerance (rule S7).</summary>
public enum IfLate
{
    /// <summary>The plan lapses.</summary>
    Lapse = 1,

    /// <summary>The step is left out.</summary>
    Skip = 2,

    /// <summary>The step named as alternative is taken.</summary>
    Alternative = 3,
}

/// <summary>One dated action of a protocol.</summary>
/// <param name="Id">Unique in its protocol, e.g. <c>pgf-1</c>.</param>
/// <param name="Kind">What is done.</param>
public sealed record ProtocolStep(string Id, StepKind Kind)
{
    /// <summary>The step it is counted from; absent = the start.</summary>
    public string? Anchor { get; init; }

    /// <summary>Interval in days: the same wall clock on a later date (rule S3). Exactly one of days and hours is set.</summary>
    public int? Days { get; init; }

    /// <summary>Interval in elapsed hours across clock changes (rule S3).</summary>
    public int? Hours { get; init; }

    /// <summary>Whether the gate (S4) must be open for it.</summary>
    public bool Gated { get; init; }

    /// <summary>Hours by which it may come early, counted from its planned time.</summary>
    public int EarlyHours { get; init; }

    /// <summary>Hours by which it may come late.</summary>
    public int LateHours { get; init; }

    /// <summary>Past its tolerance.</summary>
    public IfLate IfLate { get; init; } = IfLate.Lapse;

    /// <summary>Whether the publication calls it optional.</summary>
    public bool Optional { get; init; }

    /// <summary>Whether the branch needs a corpus luteum seen at an examination (rule S9).</summary>
    public bool NeedsCorpusLuteum { get; init; }
}

/// <summary>A published sequence of steps, kept as data with its source.</summary>
/// <param name="Id">Kebab-case id, e.g. <c>ovsynch-56</c>.</param>
/// <param name="Name">Its published name.</param>
/// <param name="Class">The animals it is for.</param>
/// <param name="Use">First service, resynchronisation or either.</param>
/// <param name="Steps">In order of time.</param>
public sealed record Protocol(string Id, string Name, AnimalClass Class, ProtocolUse Use, ImmutableArray<ProtocolStep> Steps)
{
    /// <summary>The session of the first step.</summary>
    public Session StartSession { get; init; } = Session.Morning;

    /// <summary>Published resynchronisation recipes come with their start (rule S1); absent = the programme's.</summary>
    public ResynchronisationStart? Start { get; init; }

    /// <summary>Where it was published.</summary>
    public required string Source { get; init; }

    /// <summary>Digital object identifier of the source; absent = none known.</summary>
    public string? Doi { get; init; }

    /// <summary>How well it is known to us.</summary>
    public required Evidence Evidence { get; init; }

    /// <summary>What exactly was read, or recalled.</summary>
    public string? EvidenceDetail { get; init; }

    /// <summary>Notes for a reader.</summary>
    public string? Notes { get; init; }

    /// <summary>Whether a programme may choose it: a schedule recalled but not re-read is shown, not used.</summary>
    public bool IsSelectable => Evidence is not Evidence.Memory;

    /// <summary>Hours from the start to a step with every day counted as 24 hours; clock changes come in with the dates.</summary>
    public int HoursFromStart(ProtocolStep step) =>
        (step.Days * 24 ?? step.Hours ?? 0)
        + (step.Anchor is null ? 0 : HoursFromStart(Steps.First(s => s.Id == step.Anchor)));

    /// <summary>The first gated step; absent = none.</summary>
    public ProtocolStep? FirstGated => Steps.FirstOrDefault(s => s.Gated);

    /// <summary>
    /// Whether it may start before the result: all steps before the first gated one are GnRH or insert steps, or watching,
    /// which gives nothing (S1; one published recipe watches between its insert and its GnRH).
    /// </summary>
    public bool MayStartBeforeResult =>
        Steps.TakeWhile(s => !s.Gated).All(s => s.Kind is StepKind.Gnrh or StepKind.InsertIn or StepKind.InsertOut or StepKind.WatchOestrus)
        && Steps.Length > 0 && !Steps[0].Gated;
}

/// <summary>The start published with a resynchronisation recipe.</summary>
/// <param name="Rule">Before or at the result.</param>
/// <param name="Day">Days after service, for a before-result start.</param>
public sealed record ResynchronisationStart(Programmes.StartRule Rule, int? Day);
