using System.Runtime.CompilerServices;
using NodaTime.Text;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Status;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Gates;

/// <summary>Rule S4 from facts, case by case (gate-cases.txt).</summary>
public sealed class GateFromFactsTests
{
    public static TheoryData<string, string> Cases()
    {
        var cases = new TheoryData<string, string>();
        foreach (var line in File.ReadLines(CasesPath()).Where(l => l.Length > 0 && !l.StartsWith('#')))
        {
            var space = line.IndexOf(' ', StringComparison.Ordinal);
            cases.Add(line[..space], line[space..].Trim());
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_first_clause_that_holds_is_the_one_named(string clause, string facts)
    {
        var lines = facts.Split(';', StringSplitOptions.TrimEntries);
        var cow = Cow.Of([.. lines.Where(l => !l.StartsWith("held ", StringComparison.Ordinal))]);
        var held = lines.Where(l => l.StartsWith("held ", StringComparison.Ordinal))
            .Select(l => new HeldNotice("h_1", InstantPattern.General.Parse(l[5..]).GetValueOrThrow(), "unknown-tube")).ToList();
        var state = HistoryFold.Fold(AnimalHistory.Of("1042", cow.Facts, held), Cow.Defaults, Cow.Day("2026-10-20"), Cow.Later);

        Assert.Equal(clause, Gate.Closed(state) is { } closed ? GateWords.Of(closed) : "allowed");
    }

    private static string CasesPath([CallerFilePath] string source = "") => Path.Combine(Path.GetDirectoryName(source)!, "gate-cases.txt");
}
