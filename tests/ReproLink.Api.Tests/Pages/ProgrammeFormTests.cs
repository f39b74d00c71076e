using NodaTime;
using ReproLink.Api.Pages;
using ReproLink.Api.Programmes;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Web.Programmes;

namespace ReproLink.Api.Tests.Pages;

/// <summary>The form of the programme and the reader of the API are one: what the form says is allowed is what is taken.</summary>
public sealed class ProgrammeFormTests
{
    private static readonly Day Today = Day.From(new LocalDate(2026, 10, 5));

    /// <summary>Neighbours that must move along for an edge of a setting to be tried alone.</summary>
    private static readonly Dictionary<string, (string Path, string Value)> MovesAlong = new()
    {
        ["test.overdueDaysPostService 28"] = ("test.targetDaysPostService", "28"),
        ["test.targetDaysPostService 365"] = ("test.overdueDaysPostService", "365"),
        ["test.resampleAfterDays 365"] = ("test.resampleWithinDays", "365"),
    };

    public static TheoryData<string> Numbers => [.. SettingBook.All.Where(s => s.Kind == SettingKind.Number).Select(s => s.Path)];

    private static IReadOnlyDictionary<string, string> Problems(SettingValues values) =>
        ProgrammeForm.Read(values, Today.ToString(), Today, ProtocolCatalogue.Published).Problems;

    private static SettingValues Usual => SettingValues.Of(Programme.Default)
        .With(SettingBook.FirstServiceOn, ["yes"]);

    private static SettingValues With(string path, int value)
    {
        var values = Usual.With(path, [$"{value}"]);
        if (path == "laboratory.minutes")
        {
            values = values.With("laboratory.kind", ["on-farm"]);
        }

        return MovesAlong.TryGetValue($"{path} {value}", out var other) ? values.With(other.Path, [other.Value]) : values;
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void The_range_beside_a_number_is_the_one_that_is_taken(string path)
    {
        var setting = SettingBook.Find(path)!;
        Assert.DoesNotContain(path, Problems(With(path, setting.Least)));
        Assert.DoesNotContain(path, Problems(With(path, setting.Most)));
        Assert.Contains($"{setting.Least - 1} cannot be used here", Problems(With(path, setting.Least - 1))[path], StringComparison.Ordinal);
        Assert.Contains($"{setting.Most + 1} cannot be used here", Problems(With(path, setting.Most + 1))[path], StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void What_is_no_number_is_refused_as_it_was_typed(string path)
    {
        var values = With(path, SettingBook.Find(path)!.Least).With(path, ["a few"]);
        Assert.Contains("“a few” cannot be used here", Problems(values)[path], StringComparison.Ordinal);
    }

    [Fact]
    public void Every_property_of_a_programme_has_its_field()
    {
        var asked = Leaves(typeof(ProgrammeInput), "").Except(["inForceFrom"]).Order(StringComparer.Ordinal);
        Assert.Equal(asked, SettingBook.All.Select(s => s.Path).Except([SettingBook.FirstServiceOn]).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_programme_comes_back_from_its_form_as_it_was()
    {
        var odd = new Programme
        {
            InForceFrom = Today,
            Test = new TestRules { MinDaysPostService = 30, Method = TestMethod.Milk, TestDoNotBreed = true, CutOffs = new CutOffs(0.1, 0.25, "OD"), OpenAfterPregnant = OpenAfterPregnant.Accept },
            Confirmations = [new ConfirmationWindow(60, 75, TestMethod.Ultrasound)],
            Week = new WeekRoutine { SamplingDays = [IsoDayOfWeek.Tuesday], ClosedDates = [Today + 80, Today + 81], Morning = new LocalTime(6, 30) },
            Laboratory = new Laboratory { Kind = LaboratoryKind.OnFarm, Minutes = 45 },
            Resynchronisation = new ResynchronisationChoice { Protocol = null, Start = StartRule.AtResult, StartDay = 30 },
            FirstService = new FirstServiceChoice(70, "double-ovsynch-56", [IsoDayOfWeek.Friday]),
            Recording = Recording.Recorded,
            RequireRounds = true,
        };
        foreach (var programme in new[] { odd, Programme.Default with { InForceFrom = Today } })
        {
            var (read, problems, _) = ProgrammeForm.Read(SettingValues.Of(programme), Today.ToString(), Today, ProtocolCatalogue.Published);
            Assert.Empty(problems);
            Assert.Equal(Today, read!.InForceFrom);
            Assert.All(SettingBook.All, s => Assert.Equal(s.Values(programme), s.Values(read)));
        }
    }

    [Fact]
    public void Every_setting_names_a_rule_of_the_rule_book() => Assert.All(SettingBook.All, s => Assert.NotNull(s.Source));

    [Fact]
    public void Every_field_that_is_wrong_is_told_in_a_sentence_at_once()
    {
        var values = Usual
            .With("test.minDaysPostService", ["20"])
            .With("test.overdueDaysPostService", ["30"])
            .With("week.samplingDays", [])
            .With("week.closedDates", ["2026-12-25", "2026-02-30"])
            .With("test.cutOffs.openBelow", ["0.2"])
            .With("confirmations", ["20 90 blood"])
            .With("resynchronisation.protocol", ["cosynch-5d-insert-dairy-heifer"]);
        var problems = Problems(values);
        Assert.Contains("the floor of rule T1", problems["test.minDaysPostService"], StringComparison.Ordinal);
        Assert.Contains("not below “Wanted day for a test”, 32", problems["test.overdueDaysPostService"], StringComparison.Ordinal);
        Assert.Contains("at least one weekday", problems["week.samplingDays"], StringComparison.Ordinal);
        Assert.Contains("Line 2, “2026-02-30”", problems["week.closedDates"], StringComparison.Ordinal);
        Assert.Contains("This is missing", problems["test.cutOffs.pregnantAbove"], StringComparison.Ordinal);
        Assert.Contains("20 cannot be used", problems["confirmations.0.from"], StringComparison.Ordinal);
        Assert.Equal("The protocol 'cosynch-5d-insert-dairy-heifer' is for dairy heifers.", problems["resynchronisation.protocol"]);
    }

    private static IEnumerable<string> Leaves(Type type, string before)
    {
        foreach (var property in type.GetProperties())
        {
            var kind = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
            var path = before + char.ToLowerInvariant(property.Name[0]) + property.Name[1..];
            if (kind.Namespace == typeof(ProgrammeInput).Namespace)
            {
                foreach (var leaf in Leaves(kind, path + "."))
                {
                    yield return leaf;
                }
            }
            else
            {
                yield return path;
            }
        }
    }
}
