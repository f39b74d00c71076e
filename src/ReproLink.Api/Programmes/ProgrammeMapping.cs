using System.Collections.Immutable;
using NodaTime;
using ReproLink.Api.Facts;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;

namespace ReproLink.Api.Programmes;

internal static class ProgrammeMapping
{
    public static ProgrammeAnswer Answer(SavedProgramme saved, Day on) => Of(saved.Version, on) with
    {
        State = saved.Draft ? "draft" : "saved",
        SavedBy = saved.SavedBy,
        SavedAt = saved.Version.Recorded,
    };

    /// <summary>What governs a herd that has saved nothing.</summary>
    public static ProgrammeAnswer Defaults(Day on) => Of(ProgrammeVersion.Default, on) with
    {
        State = "defaults",
        InForceFrom = null,
        Programme = ProgrammeNote.Of(hasSavedProgramme: false),
    };

    public static ApprovalAnswer Answer(int version, Approval approval) => new()
    {
        Version = version,
        ApprovedBy = approval.By,
        ApprovedAt = approval.Recorded,
        Expires = approval.Expires?.Date,
    };

    /// <summary>A programme as it is sent, from the day it is sent on.</summary>
    public static ProgrammeInput Input(Programme programme) => Filled(new ProgrammeInput(), programme);

    public static RefusalAnswer Answer(int version, Refusal refusal) => new()
    {
        Version = version,
        RefusedBy = refusal.By,
        RefusedAt = refusal.Recorded,
        Note = refusal.Note,
    };

    private static ProgrammeAnswer Of(ProgrammeVersion version, Day on) => Filled(new ProgrammeAnswer
    {
        Version = version.Number,
        State = "saved",
        Approved = version.IsApprovedOn(on),
        Approvals = [.. version.Approvals.Select(a => Answer(version.Number, a))],
        Refusals = version.Refusals.Count == 0 ? null : [.. version.Refusals.Select(r => Answer(version.Number, r))],
        InForceFrom = version.Programme.InForceFrom.Date,
    }, version.Programme);

    private static T Filled<T>(T answer, Programme programme)
        where T : ProgrammeInput => answer with
        {
            Test = Of(programme.Test),
            Confirmations = [.. programme.Confirmations.Select(c => new ConfirmationContract { From = c.From, To = c.To, Method = FactVocabulary.Methods.Word(c.Method) })],
            Week = Of(programme.Week),
            Laboratory = Of(programme.Laboratory),
            Resynchronisation = Of(programme.Resynchronisation),
            FirstService = programme.FirstService is { } first ? Of(first) : null,
            Pregnancy = new PregnancyContract { DryOffDaysBeforeDue = programme.DryOffDaysBeforeDue },
            Recording = ProgrammeVocabulary.Recordings.Word(programme.Recording),
            RequireRounds = programme.RequireRounds,
        };

    private static TestContract Of(TestRules test) => new()
    {
        Assay = test.Assay,
        Method = FactVocabulary.Methods.Word(test.Method),
        MinDaysPostService = test.MinDaysPostService,
        TargetDaysPostService = test.TargetDaysPostService,
        OverdueDaysPostService = test.OverdueDaysPostService,
        MinDaysInMilk = test.MinDaysInMilk,
        CautionDaysInMilk = test.CautionDaysInMilk,
        ClearanceEarlyLoss = test.ClearanceEarlyLoss,
        ClearanceLateLoss = test.ClearanceLateLoss,
        LateLossFromDay = test.LateLossFromDay,
        ResampleAfterDays = test.ResampleAfterDays,
        ResampleWithinDays = test.ResampleWithinDays,
        OpenAfterPregnant = ProgrammeVocabulary.OpenAfterPregnant.Word(test.OpenAfterPregnant),
        TestDoNotBreed = test.TestDoNotBreed,
        CutOffs = test.CutOffs is { } cutOffs
            ? new CutOffContract { OpenBelow = cutOffs.OpenBelow, PregnantAbove = cutOffs.PregnantAbove, Unit = cutOffs.Unit }
            : null,
    };

    private static WeekContract Of(WeekRoutine week) => new()
    {
        SamplingDays = Words(week.SamplingDays),
        StartDays = Words(week.StartDays),
        Morning = week.Morning,
        Afternoon = week.Afternoon,
        WorkingHours = new WorkingHoursContract { From = week.WorkingFrom, To = week.WorkingTo },
        ClosedDates = Dates(week.ClosedDates),
        MaxTubesPerDay = week.MaxTubesPerDay,
    };

    private static LaboratoryContract Of(Laboratory laboratory) => new()
    {
        Kind = ProgrammeVocabulary.LaboratoryKinds.Word(laboratory.Kind),
        DispatchDays = Words(laboratory.DispatchDays),
        TransitDays = laboratory.TransitDays,
        WorkingDays = Words(laboratory.WorkingDays),
        TurnaroundWorkingDays = laboratory.TurnaroundWorkingDays,
        ReportTime = laboratory.ReportTime,
        ClosedDates = Dates(laboratory.ClosedDates),
        Minutes = laboratory.Kind == LaboratoryKind.OnFarm ? laboratory.Minutes : null,
    };

    private static ResynchronisationContract Of(ResynchronisationChoice choice) => new()
    {
        Protocol = choice.Protocol ?? ProgrammeReader.None,
        ProtocolHeifer = choice.ProtocolHeifer,
        Start = ProgrammeVocabulary.Starts.Word(choice.Start),
        StartDay = choice.StartDay,
    };

    private static FirstServiceContract Of(FirstServiceChoice first) => new()
    {
        VoluntaryWaitingPeriodDays = first.VoluntaryWaitingPeriodDays,
        Protocol = first.Protocol,
        StartDays = Words(first.StartDays),
    };

    private static string[] Words(ImmutableArray<IsoDayOfWeek> days) => [.. days.Select(ProgrammeVocabulary.Weekdays.Word)];

    private static LocalDate[] Dates(ImmutableArray<Day> days) => [.. days.Select(d => d.Date)];
}
