using System.Collections.Immutable;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Programmes;

/// <summary>A herd's written policy. Every default stands in <see cref="Default"/>; floors in <c>Floors</c>.</summary>
public sealed record Programme
{
    /// <summary>The first day it is in force.</summary>
    public required Day InForceFrom { get; init; }

    /// <summary>Test rules (T1–T8).</summary>
    public TestRules Test { get; init; } = new();

    /// <summary>When pregnant cows are confirmed (rule W1).</summary>
    public ImmutableArray<ConfirmationWindow> Confirmations { get; init; } =
        [new(74, 90, TestMethod.Blood), new(200, 220, TestMethod.Blood)];

    /// <summary>The farm's week.</summary>
    public WeekRoutine Week { get; init; } = new();

    /// <summary>The laboratory, or the test on the farm.</summary>
    public Laboratory Laboratory { get; init; } = new();

    /// <summary>What open cows are put on.</summary>
    public ResynchronisationChoice Resynchronisation { get; init; } = new();

    /// <summary>First service by protocol; absent = on observed oestrus.</summary>
    public FirstServiceChoice? FirstService { get; init; }

    /// <summary>Dry-off: days before the due day. Default 60 (common practice).</summary>
    public int DryOffDaysBeforeDue { get; init; } = 60;

    /// <summary>Whether unrecorded steps count as done (S7).</summary>
    public Recording Recording { get; init; } = Recording.Assumed;

    /// <summary>Whether a result needs a sampling round behind it.</summary>
    public bool RequireRounds { get; init; }

    /// <summary>The defaults, in force from the earliest day: what governs a herd that has saved no programme.</summary>
    public static readonly Programme Default = new() { InForceFrom = Day.Earliest };
}

/// <summary>Rules T1–T8 as settings; days unless said otherwise.</summary>
public sealed record TestRules
{
    /// <summary>The assay whose values the cut-offs judge.</summary>
    public string Assay { get; init; } = "herd-default";

    /// <summary>The configured test: blood, or milk when the programme configures a milk test (T1).</summary>
    public TestMethod Method { get; init; } = TestMethod.Blood;

    /// <summary>T1: first day after service. Default and floor 28.</summary>
    public int MinDaysPostService { get; init; } = 28;

    /// <summary>W2: wanted day after service. Default 32.</summary>
    public int TargetDaysPostService { get; init; } = 32;

    /// <summary>W2: last useful day after service where no decision hangs on the test. Default 45.</summary>
    public int OverdueDaysPostService { get; init; } = 45;

    /// <summary>T2: first day in milk. Default and floor 60.</summary>
    public int MinDaysInMilk { get; init; } = 60;

    /// <summary>T2: before this day in milk a <c>pregnant</c> counts with caution. Default and floor 90.</summary>
    public int CautionDaysInMilk { get; init; } = 90;

    /// <summary>T3: days after the loss of a pregnancy younger than <see cref="LateLossFromDay"/>. Default and floor 14.</summary>
    public int ClearanceEarlyLoss { get; init; } = 14;

    /// <summary>T3: days after a later loss, or one of unknown age. Default and floor 60.</summary>
    public int ClearanceLateLoss { get; init; } = 60;

    /// <summary>T3: age of the pregnancy from which a loss is late. Default 60, at most 60.</summary>
    public int LateLossFromDay { get; init; } = 60;

    /// <summary>T5: first day after an inconclusive sample. Default and floor 7.</summary>
    public int ResampleAfterDays { get; init; } = 7;

    /// <summary>T5: last day after an inconclusive sample. Default 14.</summary>
    public int ResampleWithinDays { get; init; } = 14;

    /// <summary>T7 a: what an <c>open</c> after <c>pregnant</c> needs.</summary>
    public OpenAfterPregnant OpenAfterPregnant { get; init; } = OpenAfterPregnant.Confirm;

    /// <summary>Whether animals that are not to be bred are tested.</summary>
    public bool TestDoNotBreed { get; init; }

    /// <summary>T8: cut-offs of the assay; absent = values are kept but decide nothing.</summary>
    public CutOffs? CutOffs { get; init; }
}

/// <summary>T8: below <paramref name="OpenBelow"/> open, above <paramref name="PregnantAbove"/> pregnant, else recheck, ties included.</summary>
/// <param name="OpenBelow">In <paramref name="Unit"/>; not above <paramref name="PregnantAbove"/>.</param>
/// <param name="PregnantAbove">In <paramref name="Unit"/>.</param>
/// <param name="Unit">The unit both are in.</param>
public sealed record CutOffs(double OpenBelow, double PregnantAbove, string Unit);

/// <summary>What an <c>open</c> after <c>pregnant</c> needs (T7 a).</summary>
public enum OpenAfterPregnant
{
    /// <summary>A second valid <c>open</c> at least 7 days later, or an examination.</summary>
    Confirm = 1,

    /// <summary>Nothing more: only in an approved version.</summary>
    Accept = 2,
}

/// <summary>A confirmation: first and last day after the day that dates the pregnancy, both included.</summary>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="Method">How she is confirmed.</param>
public sealed record ConfirmationWindow(int From, int To, TestMethod Method);

/// <summary>The farm's weekly routine. Times are the herd's wall clock.</summary>
public sealed record WeekRoutine
{
    /// <summary>Weekdays on which blood is drawn.</summary>
    public ImmutableArray<IsoDayOfWeek> SamplingDays { get; init; } = [IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday];

    /// <summary>Weekdays on which a protocol may start.</summary>
    public ImmutableArray<IsoDayOfWeek> StartDays { get; init; } = [IsoDayOfWeek.Monday];

    /// <summary>Start of the morning session.</summary>
    public LocalTime Morning { get; init; } = new(7, 0);

    /// <summary>Start of the afternoon session.</summary>
    public LocalTime Afternoon { get; init; } = new(16, 0);

    /// <summary>First working minute of the day.</summary>
    public LocalTime WorkingFrom { get; init; } = new(5, 0);

    /// <summary>Last working minute of the day.</summary>
    public LocalTime WorkingTo { get; init; } = new(20, 0);

    /// <summary>Days on which the farm neither draws, starts nor dispatches.</summary>
    public ImmutableArray<Day> ClosedDates { get; init; } = [];

    /// <summary>B4: most tubes drawn on one day, at least 1. Default 150.</summary>
    public int MaxTubesPerDay { get; init; } = 150;
}

/// <summary>Where the answer comes from.</summary>
public enum LaboratoryKind
{
    /// <summary>A laboratory that samples are sent to.</summary>
    Laboratory = 1,

    /// <summary>A test read on the farm.</summary>
    OnFarm = 2,
}

/// <summary>The way of a sample to its answer (rule L1).</summary>
public sealed record Laboratory
{
    /// <summary>Laboratory or on the farm.</summary>
    public LaboratoryKind Kind { get; init; } = LaboratoryKind.Laboratory;

    /// <summary>Weekdays on which samples leave the farm.</summary>
    public ImmutableArray<IsoDayOfWeek> DispatchDays { get; init; } =
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday];

    /// <summary>Calendar days on the road.</summary>
    public int TransitDays { get; init; } = 1;

    /// <summary>The laboratory's working weekdays.</summary>
    public ImmutableArray<IsoDayOfWeek> WorkingDays { get; init; } =
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday];

    /// <summary>Working days from arrival to report.</summary>
    public int TurnaroundWorkingDays { get; init; }

    /// <summary>Wall-clock time of the report.</summary>
    public LocalTime ReportTime { get; init; } = new(17, 0);

    /// <summary>Days on which the laboratory is closed.</summary>
    public ImmutableArray<Day> ClosedDates { get; init; } = [];

    /// <summary>On the farm: minutes from the draw session to the answer.</summary>
    public int Minutes { get; init; } = 30;
}

/// <summary>When a resynchronisation starts (rule S1).</summary>
public enum StartRule
{
    /// <summary>Before the result is known, on the first start weekday from <c>StartDay</c> on.</summary>
    BeforeResult = 1,

    /// <summary>On the first start weekday after an <c>open</c> result is known.</summary>
    AtResult = 2,
}

/// <summary>What open animals are put on (rule S1).</summary>
public sealed record ResynchronisationChoice
{
    /// <summary>Protocol of cows; absent = no plan.</summary>
    public string? Protocol { get; init; } = "ovsynch-56";

    /// <summary>Protocol of heifers; absent = no plan.</summary>
    public string? ProtocolHeifer { get; init; }

    /// <summary>When it starts.</summary>
    public StartRule Start { get; init; } = StartRule.BeforeResult;

    /// <summary>Days after service of the earliest before-result start. Default 25.</summary>
    public int StartDay { get; init; } = 25;
}

/// <summary>First service by protocol.</summary>
/// <param name="VoluntaryWaitingPeriodDays">Days from calving before which she is not inseminated.</param>
/// <param name="Protocol">The protocol.</param>
/// <param name="StartDays">Its own start weekdays.</param>
public sealed record FirstServiceChoice(int VoluntaryWaitingPeriodDays, string Protocol, ImmutableArray<IsoDayOfWeek> StartDays);

/// <summary>What an unrecorded step counts as (rule S7).</summary>
public enum Recording
{
    /// <summary>Done, if it was firm at its time.</summary>
    Assumed = 1,

    /// <summary>Missed, once past its tolerance.</summary>
    Recorded = 2,
}
