using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Web.Programmes;

/// <summary>Every setting of a programme, in the groups in which people think of them.</summary>
public static partial class SettingBook
{
    private const int MostDays = 365;

    /// <summary>The field that turns first service by protocol on.</summary>
    public const string FirstServiceOn = "firstService.on";

    /// <summary>The word for no protocol.</summary>
    public const string NoProtocol = "none";

    /// <summary>Where the usual of first service stands, which is off by default.</summary>
    private static readonly FirstServiceChoice UsualFirst = new(60, "double-ovsynch-56", [IsoDayOfWeek.Friday]);

    /// <summary>A programme of defaults.</summary>
    public static readonly Programme Usual = Programme.Default;

    /// <summary>All groups.</summary>
    public static IReadOnlyList<SettingGroup> Groups { get; } =
    [
        new("tests", Tests),
        new("week", Week),
        new("laboratory", Laboratory),
        new("resynchronisation", Resynchronisation),
        new("firstService", FirstService),
        new("pregnancy", Pregnancy),
        new("recording", Recording),
    ];

    /// <summary>All settings.</summary>
    public static IReadOnlyList<Setting> All { get; } = [.. Groups.SelectMany(g => g.Settings)];

    /// <summary>The setting of a path; null = there is none.</summary>
    public static Setting? Find(string path) => All.FirstOrDefault(s => s.Path == path);

    private static IReadOnlyList<Setting> Week =>
    [
        Weekdays("week.samplingDays", "B1", p => p.Week.SamplingDays),
        Number("week.maxTubesPerDay", "B4", "tubes", 1, 10_000, p => p.Week.MaxTubesPerDay),
        Weekdays("week.startDays", "S1", p => p.Week.StartDays),
        Time("week.morning", "S2", p => p.Week.Morning),
        Time("week.afternoon", "S2", p => p.Week.Afternoon),
        Time("week.workingHours.from", "S3", p => p.Week.WorkingFrom),
        Time("week.workingHours.to", "S3", p => p.Week.WorkingTo),
        Dates("week.closedDates", "B1", p => p.Week.ClosedDates),
    ];

    private static IReadOnlyList<Setting> Laboratory =>
    [
        Choice("laboratory.kind", "L1", ["laboratory", "on-farm"], p => p.Laboratory.Kind == LaboratoryKind.OnFarm ? "on-farm" : "laboratory"),
        Weekdays("laboratory.dispatchDays", "L1", p => p.Laboratory.DispatchDays),
        Number("laboratory.transitDays", "L1", "days", 0, 30, p => p.Laboratory.TransitDays),
        Weekdays("laboratory.workingDays", "L1", p => p.Laboratory.WorkingDays),
        Number("laboratory.turnaroundWorkingDays", "L1", "workingDays", 0, 30, p => p.Laboratory.TurnaroundWorkingDays),
        Time("laboratory.reportTime", "L1", p => p.Laboratory.ReportTime),
        Dates("laboratory.closedDates", "L1", p => p.Laboratory.ClosedDates),
        Number("laboratory.minutes", "L2", "minutes", 0, 1440, p => p.Laboratory.Minutes),
    ];

    private static IReadOnlyList<Setting> Resynchronisation =>
    [
        Protocol("resynchronisation.protocol", p => p.Resynchronisation.Protocol),
        Protocol("resynchronisation.protocolHeifer", p => p.Resynchronisation.ProtocolHeifer),
        Choice("resynchronisation.start", "S1", ["before-result", "at-result"], p => p.Resynchronisation.Start == StartRule.AtResult ? "at-result" : "before-result"),
        Number("resynchronisation.startDay", "S1", "daysAfterService", 1, 100, p => p.Resynchronisation.StartDay),
    ];

    private static IReadOnlyList<Setting> FirstService =>
    [
        Truth(FirstServiceOn, "S1", p => p.FirstService is not null),
        Number("firstService.voluntaryWaitingPeriodDays", "S10", "daysAfterCalving", 1, MostDays, p => (p.FirstService ?? UsualFirst).VoluntaryWaitingPeriodDays),
        Protocol("firstService.protocol", p => (p.FirstService ?? UsualFirst).Protocol),
        Weekdays("firstService.startDays", "S1", p => (p.FirstService ?? UsualFirst).StartDays),
    ];

    private static IReadOnlyList<Setting> Pregnancy =>
    [
        new("confirmations", SettingKind.Confirmations, "W1",
            p => [.. p.Confirmations.Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.From} {c.To} {Method(c.Method)}"))]) { Unit = "daysAfterService" },
        Number("pregnancy.dryOffDaysBeforeDue", "5.8", "daysBeforeDue", 0, 150, p => p.DryOffDaysBeforeDue),
    ];

    private static IReadOnlyList<Setting> Recording =>
    [
        Choice("recording", "S7", ["assumed", "recorded"], p => p.Recording == Calendar.Programmes.Recording.Recorded ? "recorded" : "assumed"),
        Truth("requireRounds", "T9", p => p.RequireRounds),
    ];

    /// <summary>The word of a method as written in a programme.</summary>
    public static string Method(TestMethod method) => method.ToString().ToLowerInvariant();

    private static Setting Number(string path, string rule, string unit, int least, int most, Func<Programme, int> value, HardLimit hard = HardLimit.None) =>
        new(path, SettingKind.Number, rule, p => [value(p).ToString(CultureInfo.InvariantCulture)]) { Unit = unit, Least = least, Most = most, Hard = hard };

    private static Setting Weekdays(string path, string rule, Func<Programme, ImmutableArray<IsoDayOfWeek>> value) =>
        new(path, SettingKind.Weekdays, rule, p => [.. value(p).Select(d => d.ToString().ToLowerInvariant())]);

    private static Setting Time(string path, string rule, Func<Programme, LocalTime> value) =>
        new(path, SettingKind.Time, rule, p => [value(p).ToString("HH':'mm", CultureInfo.InvariantCulture)]);

    private static Setting Dates(string path, string rule, Func<Programme, ImmutableArray<Day>> value) =>
        new(path, SettingKind.Dates, rule, p => [.. value(p).Select(d => d.ToString())]);

    private static Setting Choice(string path, string rule, IReadOnlyList<string> words, Func<Programme, string> value) =>
        new(path, SettingKind.Choice, rule, p => [value(p)]) { Words = words };

    private static Setting Truth(string path, string rule, Func<Programme, bool> value) =>
        new(path, SettingKind.Truth, rule, p => value(p) ? ["yes"] : []);

    private static Setting Protocol(string path, Func<Programme, string?> value) =>
        new(path, SettingKind.Protocol, "S1", p => [value(p) ?? NoProtocol]);
}
