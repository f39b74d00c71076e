using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Programmes;

/// <summary>A herd's written policy. Every property may be left out and then has its default.</summary>
public record ProgrammeInput
{
    /// <summary>First day it is in force; absent = the herd's today.</summary>
    public LocalDate? InForceFrom { get; init; }

    /// <summary>Test rules T1 to T8.</summary>
    public TestContract? Test { get; init; }

    /// <summary>When pregnant cows are confirmed, in order, without overlaps; absent = by blood on days 74 to 90 and 200 to 220.</summary>
    public IReadOnlyList<ConfirmationContract>? Confirmations { get; init; }

    /// <summary>The farm's week.</summary>
    public WeekContract? Week { get; init; }

    /// <summary>The laboratory, or the test on the farm.</summary>
    public LaboratoryContract? Laboratory { get; init; }

    /// <summary>What open animals are put on.</summary>
    public ResynchronisationContract? Resynchronisation { get; init; }

    /// <summary>First service by protocol; absent = off, on observed oestrus.</summary>
    public FirstServiceContract? FirstService { get; init; }

    /// <summary>Pregnant cows.</summary>
    public PregnancyContract? Pregnancy { get; init; }

    /// <summary>What an unrecorded step counts as.</summary>
    /// <example>assumed</example>
    [Words("assumed", "recorded")]
    public string? Recording { get; init; }

    /// <summary>Whether a result is held without a sample on record for its day.</summary>
    public bool? RequireRounds { get; init; }
}

/// <summary>Rules T1 to T8 as settings; days unless said otherwise. A value beyond a floor is refused.</summary>
public sealed record TestContract
{
    /// <summary>The assay whose values the cut-offs judge.</summary>
    /// <example>herd-default</example>
    public string? Assay { get; init; }

    /// <summary>The configured test.</summary>
    /// <example>blood</example>
    [Words("blood", "milk")]
    public string? Method { get; init; }

    /// <summary>T1: first day after service; floor 28.</summary>
    /// <example>28</example>
    public int? MinDaysPostService { get; init; }

    /// <summary>W2: wanted day after service.</summary>
    /// <example>32</example>
    public int? TargetDaysPostService { get; init; }

    /// <summary>W2: last useful day after service.</summary>
    /// <example>45</example>
    public int? OverdueDaysPostService { get; init; }

    /// <summary>T2: first day in milk; floor 60.</summary>
    /// <example>60</example>
    public int? MinDaysInMilk { get; init; }

    /// <summary>T2: before this day in milk a `pregnant` counts with caution; floor 90.</summary>
    /// <example>90</example>
    public int? CautionDaysInMilk { get; init; }

    /// <summary>T3: days after an early loss; floor 14.</summary>
    /// <example>14</example>
    public int? ClearanceEarlyLoss { get; init; }

    /// <summary>T3: days after a late loss or one of unknown age; floor 60.</summary>
    /// <example>60</example>
    public int? ClearanceLateLoss { get; init; }

    /// <summary>T3: age of the pregnancy from which a loss is late; at most 60.</summary>
    /// <example>60</example>
    public int? LateLossFromDay { get; init; }

    /// <summary>T5: first day after an inconclusive sample; floor 7.</summary>
    /// <example>7</example>
    public int? ResampleAfterDays { get; init; }

    /// <summary>T5: last day after an inconclusive sample.</summary>
    /// <example>14</example>
    public int? ResampleWithinDays { get; init; }

    /// <summary>T7 a: what an `open` after `pregnant` needs. `accept` has no effect until a veterinarian approves the version.</summary>
    /// <example>confirm</example>
    [Words("confirm", "accept")]
    public string? OpenAfterPregnant { get; init; }

    /// <summary>Whether animals that are not to be bred are tested.</summary>
    public bool? TestDoNotBreed { get; init; }

    /// <summary>T8: cut-offs of the assay; absent = values are kept but decide nothing.</summary>
    public CutOffContract? CutOffs { get; init; }
}

/// <summary>T8: below `openBelow` open, above `pregnantAbove` pregnant, between them and on them recheck.</summary>
public sealed record CutOffContract
{
    /// <summary>Not above `pregnantAbove`.</summary>
    /// <example>0.21</example>
    public required double OpenBelow { get; init; }

    /// <summary>Not below `openBelow`.</summary>
    /// <example>0.30</example>
    public required double PregnantAbove { get; init; }

    /// <summary>The unit of both.</summary>
    /// <example>S-N</example>
    public required string Unit { get; init; }
}

/// <summary>A confirmation: first and last day after the day that dates the pregnancy.</summary>
public sealed record ConfirmationContract
{
    /// <summary>First day; from 28 (palpation: 35).</summary>
    /// <example>74</example>
    public required int From { get; init; }

    /// <summary>Last day, included.</summary>
    /// <example>90</example>
    public required int To { get; init; }

    /// <summary>How.</summary>
    /// <example>blood</example>
    [Words("blood", "milk", "ultrasound", "palpation")]
    public required string Method { get; init; }
}

/// <summary>The farm's week; times are the herd's wall clock.</summary>
public sealed record WeekContract
{
    /// <summary>Weekdays on which blood is drawn; at least one.</summary>
    public IReadOnlyList<string>? SamplingDays { get; init; }

    /// <summary>Weekdays on which a protocol may start; at least one.</summary>
    public IReadOnlyList<string>? StartDays { get; init; }

    /// <summary>Morning session.</summary>
    public LocalTime? Morning { get; init; }

    /// <summary>Afternoon session, later than the morning's.</summary>
    public LocalTime? Afternoon { get; init; }

    /// <summary>Working hours.</summary>
    public WorkingHoursContract? WorkingHours { get; init; }

    /// <summary>Days on which nothing is drawn, started or dispatched; at most 1000.</summary>
    public IReadOnlyList<LocalDate>? ClosedDates { get; init; }

    /// <summary>B4: most tubes drawn on one day, from 1.</summary>
    /// <example>150</example>
    public int? MaxTubesPerDay { get; init; }
}

/// <summary>Working hours.</summary>
public sealed record WorkingHoursContract
{
    /// <summary>First minute.</summary>
    public LocalTime? From { get; init; }

    /// <summary>Last minute, later than `from`.</summary>
    public LocalTime? To { get; init; }
}

/// <summary>The way of a sample to its answer.</summary>
public sealed record LaboratoryContract
{
    /// <summary>A laboratory that samples are sent to, or a test read on the farm.</summary>
    /// <example>laboratory</example>
    [Words("laboratory", "on-farm")]
    public string? Kind { get; init; }

    /// <summary>Weekdays on which samples leave the farm.</summary>
    public IReadOnlyList<string>? DispatchDays { get; init; }

    /// <summary>Calendar days on the road, 0 to 30.</summary>
    /// <example>1</example>
    public int? TransitDays { get; init; }

    /// <summary>The laboratory's working weekdays.</summary>
    public IReadOnlyList<string>? WorkingDays { get; init; }

    /// <summary>Working days from arrival to report, 0 to 30.</summary>
    /// <example>0</example>
    public int? TurnaroundWorkingDays { get; init; }

    /// <summary>Local time of the report.</summary>
    public LocalTime? ReportTime { get; init; }

    /// <summary>Days on which the laboratory is closed; at most 1000.</summary>
    public IReadOnlyList<LocalDate>? ClosedDates { get; init; }

    /// <summary>On-farm only: minutes from the draw session to the answer, 0 to 1440.</summary>
    /// <example>30</example>
    public int? Minutes { get; init; }
}

/// <summary>What open animals are put on.</summary>
public sealed record ResynchronisationContract
{
    /// <summary>Protocol of cows, or `none`.</summary>
    /// <example>ovsynch-56</example>
    public string? Protocol { get; init; }

    /// <summary>Protocol of heifers; absent or `none` = no plan.</summary>
    /// <example>cosynch-5d-insert-dairy-heifer</example>
    public string? ProtocolHeifer { get; init; }

    /// <summary>When it starts; `before-result` only for protocols that may start before the result.</summary>
    /// <example>before-result</example>
    [Words("before-result", "at-result")]
    public string? Start { get; init; }

    /// <summary>Days after service of the earliest start before the result, 1 to 100.</summary>
    /// <example>25</example>
    public int? StartDay { get; init; }
}

/// <summary>First service by protocol.</summary>
public sealed record FirstServiceContract
{
    /// <summary>Days from calving before which she is not inseminated, 1 to 365.</summary>
    /// <example>60</example>
    public int? VoluntaryWaitingPeriodDays { get; init; }

    /// <summary>The protocol.</summary>
    /// <example>double-ovsynch-56</example>
    public string? Protocol { get; init; }

    /// <summary>Weekdays on which it may start; at least one.</summary>
    public IReadOnlyList<string>? StartDays { get; init; }
}

/// <summary>Pregnant cows.</summary>
public sealed record PregnancyContract
{
    /// <summary>Dry-off, in days before the due day, 0 to 150.</summary>
    /// <example>60</example>
    public int? DryOffDaysBeforeDue { get; init; }
}
