using System.Collections.Immutable;
using CsCheck;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Generators;

/// <summary>Random programmes within what is allowed: nothing under a floor, cut-offs in order, weekdays of every kind.</summary>
public static class RandomProgrammes
{
    private static readonly string[] Zones = ["America/Chicago", "Europe/Berlin", "Pacific/Auckland", "America/Sao_Paulo", "Etc/UTC"];

    /// <summary>Protocols of cows a programme may name; absent = no plan.</summary>
    private static readonly string?[] CowProtocols = ["ovsynch-56", "ovsynch-48", "cosynch-72", "cosynch-5d-dairy-cow", null];

    private static readonly string?[] HeiferProtocols = [null, "cosynch-5d-insert-dairy-heifer"];

    private static readonly Gen<bool> Seldom = Gen.Int[0, 5].Select(n => n == 0);

    /// <summary>Weekdays; mostly a few, seldom all, never none.</summary>
    private static readonly Gen<ImmutableArray<IsoDayOfWeek>> Weekdays = Gen.Int[1, 127]
        .Select(bits => Enumerable.Range(1, 7).Where(d => (bits & (1 << (d - 1))) != 0).Select(d => (IsoDayOfWeek)d).ToImmutableArray());

    private static Gen<T> Any<T>(T[] these) => Gen.Int[0, these.Length - 1].Select(i => these[i]);

    private static Gen<T> Mostly<T>(T usual, params T[] others) =>
        Gen.Frequency((3, Gen.Const(usual)), (2, Any(others)));

    private static readonly Gen<TestRules> Tests =
        from method in Mostly(TestMethod.Blood, TestMethod.Milk)
        from first in Mostly(28, 29, 32)
        from target in Gen.Int[32, 35]
        from overdue in Mostly(45, 40, 50)
        from milk in Mostly<(int Min, int Caution)>((60, 90), (60, 100), (73, 90))
        from early in Mostly(14, 21)
        from late in Mostly<(int Days, int From)>((60, 60), (75, 60), (60, 42))
        from again in Mostly<(int After, int Within)>((7, 14), (10, 21), (7, 7))
        from accept in Seldom
        from dnb in Seldom
        from cut in Mostly<CutOffs?>(null, new CutOffs(0.21, 0.30, "S-N"), new CutOffs(0.25, 0.25, "S-N"))
        select new TestRules
        {
            Method = method,
            MinDaysPostService = first,
            TargetDaysPostService = target,
            OverdueDaysPostService = overdue,
            MinDaysInMilk = milk.Min,
            CautionDaysInMilk = milk.Caution,
            ClearanceEarlyLoss = early,
            ClearanceLateLoss = late.Days,
            LateLossFromDay = late.From,
            ResampleAfterDays = again.After,
            ResampleWithinDays = again.Within,
            OpenAfterPregnant = accept ? OpenAfterPregnant.Accept : OpenAfterPregnant.Confirm,
            TestDoNotBreed = dnb,
            CutOffs = cut,
        };

    private static readonly Gen<WeekRoutine> Weeks =
        from sampling in Gen.Frequency((2, Gen.Const(ImmutableArray.Create(IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday))), (3, Weekdays))
        from starts in Gen.Frequency((2, Gen.Const(ImmutableArray.Create(IsoDayOfWeek.Monday))), (3, Weekdays))
        from closed in Gen.Int[0, RandomAnimals.Span].Array[0, 12]
        from morning in Mostly(new LocalTime(7, 0), new LocalTime(5, 30), new LocalTime(2, 30))
        select new WeekRoutine
        {
            SamplingDays = sampling,
            StartDays = starts,
            Morning = morning,
            ClosedDates = [.. closed.Distinct().Order().Select(n => RandomAnimals.Start + n)],
        };

    private static readonly Gen<Laboratory> Laboratories =
        from kind in Mostly(LaboratoryKind.Laboratory, LaboratoryKind.OnFarm)
        from dispatch in Gen.Frequency((2, Gen.Const(new Laboratory().DispatchDays)), (2, Weekdays))
        from transit in Gen.Int[0, 3]
        from working in Gen.Frequency((3, Gen.Const(new Laboratory().WorkingDays)), (1, Weekdays))
        from turnaround in Gen.Int[0, 3]
        from report in Mostly(new LocalTime(17, 0), new LocalTime(6, 0), new LocalTime(7, 0))
        from closed in Gen.Int[0, RandomAnimals.Span].Array[0, 6]
        from minutes in Gen.Int[5, 120]
        select new Laboratory
        {
            Kind = kind,
            DispatchDays = dispatch,
            TransitDays = transit,
            WorkingDays = working,
            TurnaroundWorkingDays = turnaround,
            ReportTime = report,
            ClosedDates = [.. closed.Distinct().Order().Select(n => RandomAnimals.Start + n)],
            Minutes = minutes,
        };

    private static readonly Gen<ImmutableArray<ConfirmationWindow>> Windows = Mostly(
        Programme.Default.Confirmations,
        [new(60, 75, TestMethod.Ultrasound), new(200, 220, TestMethod.Blood)],
        [new(74, 90, TestMethod.Blood), new(120, 130, TestMethod.Palpation)],
        []);

    private static readonly Gen<ResynchronisationChoice> Choices =
        from cows in Mostly("ovsynch-56", CowProtocols)
        from heifers in Any(HeiferProtocols)
        from start in Mostly(StartRule.BeforeResult, StartRule.AtResult)
        from day in Mostly(25, 18, 21, 32)
        select new ResynchronisationChoice { Protocol = cows, ProtocolHeifer = heifers, Start = start, StartDay = day };

    /// <summary>One programme in force from a day.</summary>
    public static Gen<Programme> From(Day inForceFrom) =>
        from test in Tests
        from week in Weeks
        from laboratory in Laboratories
        from windows in Windows
        from choice in Choices
        select new Programme
        {
            InForceFrom = inForceFrom,
            Test = test,
            Week = week,
            Laboratory = laboratory,
            Confirmations = windows,
            Resynchronisation = choice,
        };

    /// <summary>Rules of a herd: mostly one version, seldom none, up to three from different days; about half approved.</summary>
    public static readonly Gen<HerdRules> Rules =
        from zone in Any(Zones)
        from count in Gen.Frequency((1, Gen.Const(0)), (5, Gen.Const(1)), (2, Gen.Const(2)), (2, Gen.Const(3)))
        from days in Gen.Int[0, RandomAnimals.Span].Array[count]
        from programmes in From(RandomAnimals.Start).Array[count]
        from approved in Gen.Bool.Array[count]
        select new HerdRules(DateTimeZoneProviders.Tzdb[zone], programmes.Select((p, i) => new ProgrammeVersion(
            i + 1,
            p with { InForceFrom = RandomAnimals.Start + (i == 0 ? 0 : days[i]) },
            RandomAnimals.Recorded(RandomAnimals.Start),
            approved[i] ? [new Approval("vet", RandomAnimals.Recorded(RandomAnimals.Start), null)] : [])));
}
