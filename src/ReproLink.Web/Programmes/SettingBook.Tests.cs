using System.Globalization;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Web.Programmes;

/// <content>The tests: from which day, and what an answer says.</content>
public static partial class SettingBook
{
    private static IReadOnlyList<Setting> Tests =>
    [
        Choice("test.method", "T1", ["blood", "milk"], p => p.Test.Method == TestMethod.Milk ? "milk" : "blood"),
        Days("test.minDaysPostService", "T1", "daysAfterService", 28, p => p.Test.MinDaysPostService),
        Number("test.targetDaysPostService", "W2", "daysAfterService", 28, MostDays, p => p.Test.TargetDaysPostService),
        Number("test.overdueDaysPostService", "W2", "daysAfterService", 28, MostDays, p => p.Test.OverdueDaysPostService),
        Days("test.minDaysInMilk", "T2", "daysInMilk", 60, p => p.Test.MinDaysInMilk),
        Days("test.cautionDaysInMilk", "T2", "daysInMilk", 90, p => p.Test.CautionDaysInMilk),
        Days("test.clearanceEarlyLoss", "T3", "daysAfterLoss", 14, p => p.Test.ClearanceEarlyLoss),
        Days("test.clearanceLateLoss", "T3", "daysAfterLoss", 60, p => p.Test.ClearanceLateLoss),
        Number("test.lateLossFromDay", "T3", "daysPregnant", 1, 60, p => p.Test.LateLossFromDay, HardLimit.Cap),
        Days("test.resampleAfterDays", "T5", "daysAfterSample", 7, p => p.Test.ResampleAfterDays),
        Number("test.resampleWithinDays", "T5", "daysAfterSample", 7, MostDays, p => p.Test.ResampleWithinDays),
        Choice("test.openAfterPregnant", "T7 a", ["confirm", "accept"], p => p.Test.OpenAfterPregnant == OpenAfterPregnant.Accept ? "accept" : "confirm"),
        Truth("test.testDoNotBreed", "5.3", p => p.Test.TestDoNotBreed),
        new("test.assay", SettingKind.Text, "T8", p => [p.Test.Assay]),
        CutOff("test.cutOffs.openBelow", c => c.OpenBelow.ToString("R", CultureInfo.InvariantCulture), SettingKind.Decimal),
        CutOff("test.cutOffs.pregnantAbove", c => c.PregnantAbove.ToString("R", CultureInfo.InvariantCulture), SettingKind.Decimal),
        CutOff("test.cutOffs.unit", c => c.Unit, SettingKind.Text),
    ];

    private static Setting Days(string path, string rule, string unit, int floor, Func<Programme, int> value) =>
        Number(path, rule, unit, floor, MostDays, value, HardLimit.Floor);

    private static Setting CutOff(string path, Func<CutOffs, string> value, SettingKind kind) =>
        new(path, kind, "T8", p => p.Test.CutOffs is { } cutOffs ? [value(cutOffs)] : []);
}
