using ReproLink.Api.Intake;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Facts;

/// <summary>
/// A sender's herd file turned into the facts it stands for, so that one reader judges all forms. Of every line it is told what
/// became of it: facts, a refusal, or that it was left out and why.
/// </summary>
internal sealed class MappedFacts(FactMappingSheet sheet)
{
    private readonly List<LeftOutLine> _leftOut = [];

    /// <summary>Lines that gave no fact, on purpose or because they say nothing.</summary>
    public IReadOnlyList<LeftOutLine> LeftOut => _leftOut;

    /// <summary>Headings that nothing was read from.</summary>
    public IReadOnlyList<string> UnreadColumns { get; private set; } = [];

    /// <summary>Reads a file.</summary>
    public (CsvRows? Rows, Problem? Refusal) Read(byte[] bytes)
    {
        var (file, refusal) = ColumnFile.Read(bytes, sheet.Writing, sheet.Headings, sheet.Sender);
        if (file is null)
        {
            return (null, refusal);
        }

        UnreadColumns = file.UnreadColumns;
        using var items = new MappedItems();
        foreach (var line in file.Lines)
        {
            Add(items, file, line);
        }

        return (items.Rows(file.Header), null);
    }

    private void Add(MappedItems items, ColumnFile file, ColumnLine line)
    {
        if (line.Unreadable is { } unreadable)
        {
            items.Add([], line.Line, unreadable, line.Raw);
            return;
        }

        if (Happened(file, line, out var word) is { } refused)
        {
            items.Add([], line.Line, refused, line.Raw);
            return;
        }

        if (word is not null && sheet.LeaveOut.Contains(word))
        {
            _leftOut.Add(new LeftOutLine { Line = line.Line, Text = line.Raw, Reason = $"The mapping leaves out '{file.Cell(line, sheet.Input.EventColumn!)}'." });
            return;
        }

        var rules = sheet.Input.Facts.Where(rule => word is null ? Speaks(rule, file, line) : Means(rule, word)).ToArray();
        foreach (var rule in rules)
        {
            items.Add(Properties(rule, file, line), line.Line, null, line.Raw);
        }

        if (rules.Length == 0)
        {
            _leftOut.Add(new LeftOutLine { Line = line.Line, Text = line.Raw, Reason = "None of the columns read says anything." });
        }
    }

    // The word of the event column; a word nobody explained is refused, for it may be a calving.
    private FieldProblem? Happened(ColumnFile file, ColumnLine line, out string? word)
    {
        word = null;
        if (sheet.Input.EventColumn is not { } column)
        {
            return null;
        }

        var cell = file.Cell(line, column);
        word = SenderWriting.Folded(cell ?? "");
        var known = word;
        if (sheet.LeaveOut.Contains(known) || sheet.Input.Facts.Any(rule => Means(rule, known)))
        {
            return null;
        }

        var allowed = "a word under 'events' or 'leaveOut' of the mapping";
        var problems = new FieldProblems();
        problems.Add(cell is null ? ProblemTypes.MissingProperty : ProblemTypes.InvalidValue, column, cell, allowed,
            cell is null ? $"The column '{column}' is empty; allowed: {allowed}." : $"'{column}' is \"{cell}\"; allowed: {allowed}.");
        return problems.List[0];
    }

    private static bool Means(FactRule rule, string word) => (rule.Events ?? []).Any(e => SenderWriting.Folded(e) == word);

    private bool Speaks(FactRule rule, ColumnFile file, ColumnLine line) =>
        rule.Columns is not { Count: > 0 } own || own.Values.Any(heading => !sheet.IsEmpty(file.Cell(line, heading)));

    private SortedDictionary<string, string> Properties(FactRule rule, ColumnFile file, ColumnLine line)
    {
        var said = new SortedDictionary<string, string>(StringComparer.Ordinal);
        Fill(said, rule, file, line, sheet.Input.Columns.Where(c => rule.Columns?.ContainsKey(c.Key) != true && rule.Fixed?.ContainsKey(c.Key) != true));
        Fill(said, rule, file, line, rule.Columns ?? new Dictionary<string, string>());
        foreach (var (property, text) in rule.Fixed ?? new Dictionary<string, string>())
        {
            said[property] = text;
        }

        said["kind"] = rule.Kind;
        if (!HasIdColumn(rule))
        {
            said["sourceId"] = MappedItems.IdOf(rule.Kind, rule.Kind == "animal" ? said.Where(IdentifiesCard) : said);
        }

        said["source"] = sheet.Sender;
        return said;
    }

    private void Fill(SortedDictionary<string, string> said, FactRule rule, ColumnFile file, ColumnLine line, IEnumerable<KeyValuePair<string, string>> columns)
    {
        foreach (var (property, heading) in columns)
        {
            if (file.Cell(line, heading) is not { } cell || sheet.IsEmpty(cell))
            {
                continue;
            }

            said[property] = sheet.Read(rule, property, cell);
            if (property == "date" && sheet.TimeIn(cell) is { } time)
            {
                said.TryAdd("time", time);
            }
        }
    }

    private bool HasIdColumn(FactRule rule) => rule.Columns?.ContainsKey("sourceId") == true || sheet.Input.Columns.ContainsKey("sourceId");

    // An undated card is the animal's one card of this sender: next month's file replaces it. Everything else that is said
    // otherwise is another fact: a contradiction is seen, not settled unseen.
    private static bool IdentifiesCard(KeyValuePair<string, string> property) => property.Key is "animal" or "date";
}
