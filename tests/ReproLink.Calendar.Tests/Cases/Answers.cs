using ReproLink.Calendar.Dates;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Cases;

/// <summary>Compares what a case expects, key by key, with what came out.</summary>
internal static class Answers
{
    /// <summary>The lines that do not hold, each with what came out instead.</summary>
    public static List<string> Failures(Case one)
    {
        var herd = new Herd(one);
        return [.. one.Questions.SelectMany(q => Failures(herd, q))];
    }

    private static IEnumerable<string> Failures(Herd herd, Question question)
    {
        var words = new Words(question.Asked.Text);
        Func<string, Words, string> answer = words.Take("the question") switch
        {
            "asked" => new AskedAnswers(herd, words).Of,
            "list" => new ListAnswers(herd, words).Of,
            "draw" => new DrawAnswers(herd, words).Of,
            _ => new LastDrawAnswers(herd, words).Of,
        };
        words.End();
        foreach (var line in question.Expected)
        {
            var (expected, actual) = Compare(line, answer);
            if (expected != actual) yield return $"{line.File}:{line.Number}: {line.Text} — but it is {actual} ({question.Asked.Text})";
        }
    }

    // The key takes from the line what it needs to be asked; what is left of the line is the expected answer.
    private static (string Expected, string Actual) Compare(Line line, Func<string, Words, string> answer)
    {
        var words = new Words(line.Text);
        try
        {
            var actual = answer(words.Take("the key"), words);
            var expected = string.Join(' ', words.Rest());
            return expected.Length > 0 ? (expected, actual) : throw line.Wrong("no value is expected");
        }
        catch (FormatException mistake)
        {
            throw line.Wrong(mistake.Message);
        }
    }

    public static string Word(Day? day) => day?.ToString() ?? "none";

    public static string Word(bool holds) => holds ? "yes" : "no";

    public static string Word(int? number) => number is { } n ? n.ToString(System.Globalization.CultureInfo.InvariantCulture) : "none";
}
