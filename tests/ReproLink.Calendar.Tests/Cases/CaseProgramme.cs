using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Cases;

/// <summary>Makes the rules of a case from its programme lines: <c>programme minDaysPostService 30</c>, named as over HTTP.</summary>
internal static class CaseProgramme
{
    public static HerdRules Of(Case one)
    {
        var versions = new List<ProgrammeVersion>();
        foreach (var line in one.Programme)
        {
            var words = new Words(line.Text);
            try
            {
                Take(words, versions);
                words.End();
            }
            catch (FormatException mistake)
            {
                throw line.Wrong(mistake.Message);
            }
        }

        return new HerdRules(DateTimeZoneProviders.Tzdb[one.Zone], versions);
    }

    private static void Take(Words words, List<ProgrammeVersion> versions)
    {
        var key = words.Take("the setting");
        if (key == "from" || versions.Count == 0)
        {
            var day = key == "from" ? words.NeedDay("the first day") : Day.Earliest;
            versions.Add(new ProgrammeVersion(versions.Count + 1, Programme.Default with { InForceFrom = day }, Instant.MinValue, []));
        }

        var version = versions[^1];
        versions[^1] = key switch
        {
            "from" => version,
            "approved" => version with { Approvals = [new Approval("vet", Instant.MinValue, words.DayValue("until"))] },
            _ => version with { Programme = Set(version.Programme, key, words) },
        };
    }

    private static Programme Set(Programme p, string key, Words words) => key switch
    {
        "confirmation" => p with { Confirmations = p.Confirmations.Add(new ConfirmationWindow(Int(words), Int(words), Method(words))) },
        "confirmations" when words.Flag("none") => p with { Confirmations = [] },
        "dryOffDaysBeforeDue" => p with { DryOffDaysBeforeDue = Int(words) },
        "protocol" => p with { Resynchronisation = p.Resynchronisation with { Protocol = Optional(words) } },
        "protocolHeifer" => p with { Resynchronisation = p.Resynchronisation with { ProtocolHeifer = Optional(words) } },
        "start" => p with { Resynchronisation = p.Resynchronisation with { Start = Start(words) } },
        "startDay" => p with { Resynchronisation = p.Resynchronisation with { StartDay = Int(words) } },
        _ => SetTest(p.Test, key, words) is { } test ? p with { Test = test }
            : SetWeek(p.Week, key, words) is { } week ? p with { Week = week }
            : SetLaboratory(p.Laboratory, key, words) is { } laboratory ? p with { Laboratory = laboratory }
            : throw words.Wrong($"there is no setting '{key}'"),
    };

    private static TestRules? SetTest(TestRules t, string key, Words words) => key switch
    {
        "method" => t with { Method = Method(words) },
        "minDaysPostService" => t with { MinDaysPostService = Int(words) },
        "targetDaysPostService" => t with { TargetDaysPostService = Int(words) },
        "overdueDaysPostService" => t with { OverdueDaysPostService = Int(words) },
        "minDaysInMilk" => t with { MinDaysInMilk = Int(words) },
        "cautionDaysInMilk" => t with { CautionDaysInMilk = Int(words) },
        "clearanceEarlyLoss" => t with { ClearanceEarlyLoss = Int(words) },
        "clearanceLateLoss" => t with { ClearanceLateLoss = Int(words) },
        "lateLossFromDay" => t with { LateLossFromDay = Int(words) },
        "resampleAfterDays" => t with { ResampleAfterDays = Int(words) },
        "resampleWithinDays" => t with { ResampleWithinDays = Int(words) },
        "testDoNotBreed" => t with { TestDoNotBreed = true },
        "cutOffs" => t with { CutOffs = new CutOffs(Number(words), Number(words), words.Take("the unit")) },
        "openAfterPregnant" => t with
        {
            OpenAfterPregnant = words.Take("confirm or accept") switch
            {
                "confirm" => OpenAfterPregnant.Confirm,
                "accept" => OpenAfterPregnant.Accept,
                var other => throw words.Wrong($"'{other}' is neither confirm nor accept"),
            },
        },
        _ => null,
    };

    private static WeekRoutine? SetWeek(WeekRoutine w, string key, Words words) => key switch
    {
        "samplingDays" => w with { SamplingDays = Weekdays(words) },
        "startDays" => w with { StartDays = Weekdays(words) },
        "closedDates" => w with { ClosedDates = Dates(words) },
        "maxTubesPerDay" => w with { MaxTubesPerDay = Int(words) },
        "morning" => w with { Morning = words.TakeTime() ?? throw words.Wrong("a time HH:mm is missing") },
        _ => null,
    };

    private static Laboratory? SetLaboratory(Laboratory l, string key, Words words) => key switch
    {
        "dispatchDays" => l with { DispatchDays = Weekdays(words) },
        "workingDays" => l with { WorkingDays = Weekdays(words) },
        "transitDays" => l with { TransitDays = Int(words) },
        "turnaroundWorkingDays" => l with { TurnaroundWorkingDays = Int(words) },
        "reportTime" => l with { ReportTime = words.TakeTime() ?? throw words.Wrong("a time HH:mm is missing") },
        "laboratoryClosedDates" => l with { ClosedDates = Dates(words) },
        "onFarm" => l with { Kind = LaboratoryKind.OnFarm, Minutes = Int(words) },
        _ => null,
    };

    private static int Int(Words words) => int.Parse(words.Take("a number"), CultureInfo.InvariantCulture);

    private static double Number(Words words) => double.Parse(words.Take("a number"), CultureInfo.InvariantCulture);

    private static TestMethod Method(Words words) => Enum.Parse<TestMethod>(words.Take("the method"), ignoreCase: true);

    private static StartRule Start(Words words) => words.Take("the start") switch
    {
        "before-result" => StartRule.BeforeResult,
        "at-result" => StartRule.AtResult,
        var other => throw words.Wrong($"there is no start '{other}'"),
    };

    private static string? Optional(Words words) => words.Take("a protocol or none") is var id && id == "none" ? null : id;

    private static ImmutableArray<IsoDayOfWeek> Weekdays(Words words) =>
        [.. words.Rest().Where(w => w != "none").Select(w => Enum.Parse<IsoDayOfWeek>(w, ignoreCase: true))];

    private static ImmutableArray<Day> Dates(Words words) => [.. words.Rest().Select(w => new Words(w).NeedDay("a date"))];
}
