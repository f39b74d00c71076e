using System.Text;
using System.Text.RegularExpressions;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.Tests.Architecture;
using ReproLink.Calendar.Tests.Generators;
using ReproLink.Calendar.Tests.Laws;

namespace ReproLink.Calendar.Tests.Explanations;

/// <summary>The rule book is whole, says what the code does, and is printed in docs/rules.md.</summary>
public sealed partial class RuleBookTests
{
    private static readonly TestRules Test = Programme.Default.Test;

    [Fact]
    public void Ids_are_distinct_and_every_rule_says_something()
    {
        Assert.Equal(RuleBook.All.Count, RuleBook.All.Select(r => r.Id).Distinct().Count());
        Assert.All(RuleBook.All, r => Assert.False(string.IsNullOrWhiteSpace(r.Sentence) || string.IsNullOrWhiteSpace(r.Source)));
        Assert.All(RuleBook.All, r => Assert.True(r.Mark != EvidenceMark.Published || r.Source.Length > 1, $"{r.Id} is published where?"));
    }

    [Theory]
    [InlineData("F", 6)]
    [InlineData("T", 9)]
    [InlineData("W", 3)]
    [InlineData("B", 5)]
    [InlineData("L", 3)]
    [InlineData("S", 10)]
    public void Every_number_of_a_family_is_there(string family, int count) =>
        Assert.All(Enumerable.Range(1, count), n => Assert.NotNull(RuleBook.Find($"{family}{n}")));

    [Fact]
    public void Every_conflict_has_its_rule() =>
        Assert.All(Enum.GetValues<ConflictKind>(), k => Assert.NotNull(RuleBook.Find($"T7 {(char)('a' + (int)k - 1)}")));

    [Fact]
    public void Every_rule_named_in_an_explanation_over_random_herds_is_in_the_book() => RandomAnimals.Single.Holds(herd =>
    {
        var trace = new FoldTrace();
        var answer = TestWindows.Answer(Folded.State(herd.Animals[0], herd, trace), herd.Rules, herd.AsOf);
        var ids = answer.Reasons.Select(r => r.Rule).Concat(answer.Candidates.Select(c => c.Rule))
            .Concat(trace.Judgements.SelectMany(j => j.Reasons).Select(r => r.Rule)).Concat(trace.Notes.Select(n => n.Reason.Rule));
        Assert.All(ids, id => Assert.NotNull(RuleBook.Find(id)));
    }, cases: 3_000);

    [Fact]
    public void Every_rule_named_in_the_code_is_in_the_book()
    {
        var named = Repository.SourceFiles("src/ReproLink.Calendar").Where(f => !Path.GetFileName(f).StartsWith("RuleBook", StringComparison.Ordinal))
            .SelectMany(f => NamedRule().Matches(File.ReadAllText(f)).Select(m => m.Groups[1].Value)).Distinct().ToList();
        Assert.NotEmpty(named);
        Assert.All(named, id => Assert.NotNull(RuleBook.Find(id)));
    }

    public static TheoryData<string, string> Defaults() => new()
    {
        { "T1", $"{Test.MinDaysPostService} days" },
        { "T2", $"{Test.MinDaysInMilk} days in milk" },
        { "T2", $"caution before {Test.CautionDaysInMilk}" },
        { "T3", $"{Test.ClearanceEarlyLoss} days" },
        { "T3", $"{Test.ClearanceLateLoss} days (floor 60) from an age of {Test.LateLossFromDay} days" },
        { "T5", $"resample {Test.ResampleAfterDays} to {Test.ResampleWithinDays} days after" },
        { "T6", $"ultrasound day {HistoryFold.UltrasoundFromDay}, palpation day {HistoryFold.PalpationFromDay}" },
        { "T7 a", $"{Test.OpenAfterPregnant}: {HistoryFold.SecondSampleDays} days later".ToLowerInvariant() },
        { "T8", Test.CutOffs is null ? "none" : "some" },
        { "W1", string.Join(" and ", Programme.Default.Confirmations.Select(c => $"{c.From}-{c.To}")) },
        { "W2", $"target day {Test.TargetDaysPostService}, overdue day {Test.OverdueDaysPostService}" },
        { "B1", string.Join(" and ", Programme.Default.Week.SamplingDays.Select(d => $"{d}s")) },
        { "B4", $"{Programme.Default.Week.MaxTubesPerDay} tubes a day" },
        { "L1", $"{Programme.Default.Laboratory.TransitDays} day on the road, {Programme.Default.Laboratory.TurnaroundWorkingDays} working days, {Programme.Default.Laboratory.ReportTime:HH:mm}" },
        { "L2", $"on the farm {Programme.Default.Laboratory.Minutes} minutes" },
        { "S1", $"{Programme.Default.Resynchronisation.Protocol} from day {Programme.Default.Resynchronisation.StartDay}" },
        { "S2", $"at most {FirstStart.MostSlips} slips" },
        { "S7", Programme.Default.Recording.ToString().ToLowerInvariant() },
        { "5.8", $"dry-off {Programme.Default.DryOffDaysBeforeDue} days before due, window {PregnancyDates.WindowDays} days either side, other breeds {Gestation.Others} days" },
    };

    [Theory]
    [MemberData(nameof(Defaults))]
    public void Defaults_in_the_book_are_those_of_the_code(string id, string expected) =>
        Assert.Contains(expected, RuleBook.Find(id)!.Default!, StringComparison.Ordinal);

    [Fact]
    public void The_days_of_T7_in_the_book_are_those_of_the_code()
    {
        Assert.Contains($"{HistoryFold.ShortestGestationDays} days", RuleBook.Find("T7 f")!.Sentence, StringComparison.Ordinal);
        Assert.Contains($"{HistoryFold.ShortestSinceServiceDays} days", RuleBook.Find("T7 f")!.Sentence, StringComparison.Ordinal);
        Assert.Contains($"{HistoryFold.AfterProstaglandinDays} days", RuleBook.Find("T7 g")!.Sentence, StringComparison.Ordinal);
        Assert.Contains($"{HistoryFold.SecondSampleDays} days", RuleBook.Find("T7 c")!.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void The_printed_rules_are_current()
    {
        var path = Path.Combine(Repository.Root(), "docs", "rules.md");
        var printed = Print();
        if (Environment.GetEnvironmentVariable("UPDATE_GOLDEN") == "1") File.WriteAllText(path, printed);
        Assert.True(File.Exists(path) && File.ReadAllText(path) == printed, "docs/rules.md is not what the rule book prints: run this test with UPDATE_GOLDEN=1");
    }

    private static string Print()
    {
        var text = new StringBuilder("""
            # Rules of the calendar

            Printed from the rule book in `src/ReproLink.Calendar/Explanations`; a test keeps it current. The id of a rule stands
            beside its code and in every explanation. Marks: **published** = the figure was read in the named source; **recalled** =
            not read again, verify; **common practice** = no single source; **own policy** = needs a veterinarian's sign-off;
            **definition** = how the program counts, no figure of the field. Where a rule mixes them the source says which part is which.


            """);
        foreach (var rule in RuleBook.All)
        {
            text.Append("## ").Append(rule.Id).Append("\n\n").Append(rule.Sentence).Append("\n\n");
            if (rule.Default is { } value) text.Append("- Default: ").Append(value).Append('\n');
            if (rule.Source.Length > 1) text.Append("- Source: ").Append(rule.Source).Append('\n');
            text.Append("- Mark: ").Append(RuleBook.Of(rule.Mark)).Append("\n\n");
        }

        return text.ToString().TrimEnd('\n') + "\n";
    }

    [GeneratedRegex("""(?:Reason\.Of|new Reason)\(\s*"([^"]+)",""")]
    private static partial Regex NamedRule();
}
