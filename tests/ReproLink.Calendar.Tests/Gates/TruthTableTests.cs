using System.Runtime.CompilerServices;
using ReproLink.Calendar.Gates;

namespace ReproLink.Calendar.Tests.Gates;

/// <summary>The gate against a table written by hand (truth-table.txt): all 512 combinations.</summary>
public sealed class TruthTableTests
{
    private static readonly List<(string Pattern, string Clause)> Rows = [.. File.ReadLines(TablePath())
        .Where(line => !line.StartsWith('#'))
        .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        .Select(words => (string.Concat(words[..9]), words[9]))];

    [Fact]
    public void Every_combination_has_one_row_and_the_gate_says_the_same()
    {
        for (var bits = 0; bits < 512; bits++)
        {
            var combination = Convert.ToString(bits, 2).PadLeft(9, '0');
            var row = Assert.Single(Rows, row => row.Pattern.Zip(combination).All(p => p.First == '-' || p.First == p.Second));
            var said = Gate.Closed(Inputs(combination)) is { } clause ? GateWords.Of(clause) : "allowed";

            Assert.Equal((combination, row.Clause), (combination, said));
        }
    }

    [Fact]
    public void Every_clause_has_a_word_and_a_sentence_of_its_own()
    {
        var clauses = Enum.GetValues<GateClause>();
        Assert.Equal(clauses.Length, clauses.Select(GateWords.Of).Distinct().Count());
        Assert.Equal(clauses.Length, clauses.Select(GateWords.Sentence).Distinct().Count());
    }

    private static GateInputs Inputs(string bits) => new()
    {
        HasHeldResult = bits[0] == '1',
        HasConflict = bits[1] == '1',
        HasRecheck = bits[2] == '1',
        IsHistoryKnown = bits[3] == '1',
        IsServed = bits[4] == '1',
        HasOpen = bits[5] == '1',
        IsEverythingFailed = bits[6] == '1',
        IsPregnant = bits[7] == '1',
        IsPresumedPregnant = bits[8] == '1',
    };

    private static string TablePath([CallerFilePath] string source = "") => Path.Combine(Path.GetDirectoryName(source)!, "truth-table.txt");
}
