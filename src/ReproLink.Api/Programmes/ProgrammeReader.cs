using System.Collections.Immutable;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Api.Programmes;

/// <summary>A programme as sent to the policy, with every default filled in, or to everything that is wrong with it.</summary>
internal static partial class ProgrammeReader
{
    private const int MostDays = 365;
    private const int MostConfirmations = 10;

    public static Programme Read(ObjectReader reader, Day today, ProtocolCatalogue? known = null)
    {
        var catalogue = known ?? ProtocolCatalogue.Published;
        var defaults = Programme.Default;
        var programme = new Programme
        {
            InForceFrom = reader.Day("inForceFrom") ?? today,
            Test = reader.Object("test") is { } test ? Test(test) : defaults.Test,
            Confirmations = Confirmations(reader) ?? defaults.Confirmations,
            Week = reader.Object("week") is { } week ? Week(week) : defaults.Week,
            Laboratory = reader.Object("laboratory") is { } laboratory ? Laboratory(laboratory) : defaults.Laboratory,
            Resynchronisation = reader.Object("resynchronisation") is { } choice ? Resynchronisation(choice, catalogue) : defaults.Resynchronisation,
            FirstService = reader.Object("firstService") is { } first ? FirstService(first, catalogue) : null,
            DryOffDaysBeforeDue = reader.Object("pregnancy") is { } pregnancy ? DryOff(pregnancy) : defaults.DryOffDaysBeforeDue,
            Recording = reader.Word("recording", ProgrammeVocabulary.Recordings) ?? defaults.Recording,
            RequireRounds = reader.Truth("requireRounds") ?? defaults.RequireRounds,
        };
        reader.Done();
        return programme;
    }

    private static TestRules Test(ObjectReader reader)
    {
        var usual = new TestRules();
        var test = new TestRules
        {
            Assay = reader.Text("assay", TextRule.Label) ?? usual.Assay,
            Method = reader.Word("method", ProgrammeVocabulary.TestMethods) ?? usual.Method,
            MinDaysPostService = Floored(reader, "minDaysPostService", 28, "T1", "first day after service") ?? usual.MinDaysPostService,
            TargetDaysPostService = reader.Integer("targetDaysPostService", 28, MostDays) ?? usual.TargetDaysPostService,
            OverdueDaysPostService = reader.Integer("overdueDaysPostService", 28, MostDays) ?? usual.OverdueDaysPostService,
            MinDaysInMilk = Floored(reader, "minDaysInMilk", 60, "T2", "first day in milk") ?? usual.MinDaysInMilk,
            CautionDaysInMilk = Floored(reader, "cautionDaysInMilk", 90, "T2", "day in milk from which a pregnant needs no caution") ?? usual.CautionDaysInMilk,
            ClearanceEarlyLoss = Floored(reader, "clearanceEarlyLoss", 14, "T3", "days after an early loss") ?? usual.ClearanceEarlyLoss,
            ClearanceLateLoss = Floored(reader, "clearanceLateLoss", 60, "T3", "days after a late loss") ?? usual.ClearanceLateLoss,
            LateLossFromDay = Capped(reader, "lateLossFromDay", 60, "T3", "age from which a loss is late") ?? usual.LateLossFromDay,
            ResampleAfterDays = Floored(reader, "resampleAfterDays", 7, "T5", "days after an inconclusive sample") ?? usual.ResampleAfterDays,
            ResampleWithinDays = reader.Integer("resampleWithinDays", 7, MostDays) ?? usual.ResampleWithinDays,
            OpenAfterPregnant = reader.Word("openAfterPregnant", ProgrammeVocabulary.OpenAfterPregnant) ?? usual.OpenAfterPregnant,
            TestDoNotBreed = reader.Truth("testDoNotBreed") ?? usual.TestDoNotBreed,
            CutOffs = reader.Object("cutOffs") is { } cutOffs ? CutOffs(cutOffs) : null,
        };
        Ordered(reader, "overdueDaysPostService", test.TargetDaysPostService, test.OverdueDaysPostService, "targetDaysPostService");
        Ordered(reader, "resampleWithinDays", test.ResampleAfterDays, test.ResampleWithinDays, "resampleAfterDays");
        reader.Done();
        return test;
    }

    private static CutOffs CutOffs(ObjectReader reader)
    {
        var openBelow = reader.Number("openBelow", required: true);
        var pregnantAbove = reader.Number("pregnantAbove", required: true);
        var unit = reader.Text("unit", TextRule.Label, required: true);
        if (openBelow > pregnantAbove)
        {
            reader.Refuse("openBelow", ProblemTypes.InvalidValue, $"not above 'pregnantAbove', {pregnantAbove}",
                $"The cut-offs are in the wrong order: 'openBelow' is {openBelow} and 'pregnantAbove' {pregnantAbove}.");
        }

        reader.Done();
        return new CutOffs(openBelow ?? 0, pregnantAbove ?? 0, unit ?? "");
    }

    private static ImmutableArray<ConfirmationWindow>? Confirmations(ObjectReader reader)
    {
        if (reader.List("confirmations", MostConfirmations, "a list of objects with from, to and method") is not { } elements)
        {
            return null;
        }

        var windows = new List<ConfirmationWindow>();
        foreach (var element in elements)
        {
            var item = new ObjectReader(element, reader.Problems, reader.Path("confirmations", windows.Count));
            windows.Add(item.IsObject ? Confirmation(item, windows.Count == 0 ? 0 : windows[^1].To) : new ConfirmationWindow(0, 0, TestMethod.Blood));
        }

        return [.. windows];
    }

    private static ConfirmationWindow Confirmation(ObjectReader reader, int before)
    {
        var method = reader.Word("method", FactVocabulary.Methods, required: true) ?? TestMethod.Blood;
        var floor = method == TestMethod.Palpation ? 35 : 28;
        var from = Floored(reader, "from", floor, method.IsExamination() ? "T6" : "T1", "first day after service", required: true);
        var to = reader.Integer("to", floor, MostDays, required: true);
        if (from is { } first && to is { } last)
        {
            Ordered(reader, "to", first, last, "from");
            if (first <= before)
            {
                reader.Refuse("from", ProblemTypes.InvalidValue, $"after the confirmation before it, which ends on day {before}");
            }
        }

        reader.Done();
        return new ConfirmationWindow(from ?? 0, to ?? 0, method);
    }

    private static int DryOff(ObjectReader reader)
    {
        var days = reader.Integer("dryOffDaysBeforeDue", 0, 150);
        reader.Done();
        return days ?? Programme.Default.DryOffDaysBeforeDue;
    }

    // Floors keep a programme from asking for a test before it can be right; a test that is wrong ends a pregnancy.
    private static int? Floored(ObjectReader reader, string name, int floor, string rule, string meaning, bool required = false) =>
        Limited(reader, name, value => value >= floor, $"a whole number from {floor}, the floor of rule {rule} ({meaning}), to {MostDays}", required);

    private static int? Capped(ObjectReader reader, string name, int cap, string rule, string meaning) =>
        Limited(reader, name, value => value >= 1 && value <= cap, $"a whole number from 1 to {cap}, the limit of rule {rule} ({meaning})", required: false);

    private static int? Limited(ObjectReader reader, string name, Func<int, bool> isSafe, string allowed, bool required)
    {
        var value = reader.Integer(name, 0, MostDays, required);
        if (value is not { } sent || isSafe(sent))
        {
            return value;
        }

        reader.Refuse(name, ProblemTypes.BelowFloor, allowed);
        return null;
    }

    private static void Ordered(ObjectReader reader, string name, int low, int high, string than)
    {
        if (high < low)
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, $"not below '{than}', {low}", $"'{name}' is {high}; allowed: not below '{than}', {low}.");
        }
    }
}
