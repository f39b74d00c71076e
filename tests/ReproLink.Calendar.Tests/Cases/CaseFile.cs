using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Cases;

/// <summary>One line of a case file, for messages.</summary>
internal sealed record Line(string File, int Number, string Text)
{
    public FormatException Wrong(string what) => new($"{File}:{Number}: {what}: {Text}");
}

/// <summary>A question of a case and what it must answer.</summary>
internal sealed record Question(Line Asked, List<Line> Expected);

/// <summary>One case: facts of one or more animals, a programme, questions.</summary>
internal sealed class Case(string id, string name, Line start)
{
    public string Id => id;

    public string Name => name;

    public Line Start => start;

    public string? Why { get; set; }

    public string Zone { get; set; } = "Etc/UTC";

    public List<Line> Programme { get; } = [];

    public List<(string Animal, Line Line)> Facts { get; } = [];

    public List<(string Animal, Line Line)> Held { get; } = [];

    public List<Question> Questions { get; } = [];
}

/// <summary>
/// Reads case files. A case begins with <c>case ID NAME</c>, says <c>why</c> it is there, then gives facts, one a line
/// (<see cref="FactText"/>), and asks: <c>asked DAY</c>, <c>list FROM TO</c>, <c>draw DAY</c> or <c>last-draw</c>; below a
/// question, indented, what must come out. A line that is none of this is refused.
/// </summary>
internal static class CaseFile
{
    private const string DefaultAnimal = "1042";
    private static readonly string[] QuestionWords = ["asked", "list", "draw", "last-draw"];

    public static List<Case> ReadAll(string folder) =>
        [.. Directory.GetFiles(folder, "*.cases").Order(StringComparer.Ordinal).SelectMany(f => Read(Path.GetFileName(f), File.ReadAllLines(f)))];

    public static List<Case> Read(string file, IReadOnlyList<string> lines)
    {
        var cases = new List<Case>();
        var animal = DefaultAnimal;
        for (var i = 0; i < lines.Count; i++)
        {
            var line = new Line(file, i + 1, lines[i].TrimEnd());
            if (line.Text.Length == 0 || line.Text.StartsWith('#')) continue;
            if (line.Text.StartsWith("case ", StringComparison.Ordinal))
            {
                cases.Add(Begin(line));
                animal = DefaultAnimal;
            }
            else
            {
                Take(cases.LastOrDefault() ?? throw line.Wrong("before the first case"), line, ref animal);
            }
        }

        cases.ForEach(Check);
        return cases;
    }

    private static Case Begin(Line line)
    {
        var parts = line.Text.Split(' ', 3, StringSplitOptions.RemoveEmptyEntries);
        return parts.Length == 3 ? new Case(parts[1], parts[2], line) : throw line.Wrong("a case needs an id and a name");
    }

    private static void Take(Case one, Line line, ref string animal)
    {
        if (line.Text.StartsWith("  ", StringComparison.Ordinal))
        {
            (one.Questions.LastOrDefault() ?? throw line.Wrong("expected before anything is asked")).Expected.Add(line with { Text = line.Text.Trim() });
            return;
        }

        var word = line.Text.Split(' ')[0];
        var rest = line.Text[word.Length..].Trim();
        if (QuestionWords.Contains(word)) one.Questions.Add(new Question(line, []));
        else if (one.Questions.Count > 0) throw line.Wrong("given after something was asked");
        else if (word == "why") one.Why = one.Why is null ? rest : $"{one.Why} {rest}";
        else if (word == "zone") one.Zone = rest;
        else if (word == "programme") one.Programme.Add(line with { Text = rest });
        else if (word == "animal") animal = rest;
        else if (word == "held") one.Held.Add((animal, line with { Text = rest }));
        else if (word is "card" or "confirm" || char.IsAsciiDigit(word[0])) one.Facts.Add((animal, line));
        else throw line.Wrong($"'{word}' is not understood");
    }

    private static void Check(Case one)
    {
        if (one.Why is null) throw one.Start.Wrong("does not say why it is there");
        if (one.Questions.Count == 0) throw one.Start.Wrong("asks nothing");
        foreach (var question in one.Questions)
        {
            if (question.Expected.Count == 0) throw question.Asked.Wrong("expects nothing");
        }
    }
}
