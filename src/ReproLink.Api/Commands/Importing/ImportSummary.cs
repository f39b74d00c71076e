using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.Commands.Importing;

/// <summary>What became of the lines.</summary>
/// <param name="dry">Whether it only would have.</param>
internal sealed class ImportSummary(bool dry)
{
    private const int MostShown = 10;
    private readonly Dictionary<AppendStatus, int> _stored = [];
    private readonly List<string> _shown = [];
    private readonly List<string> _told = [];
    private readonly HashSet<(string, int?)> _rejectedLines = [];

    public int Rejected => _rejectedLines.Count;

    public void Add(AppendStatus status) => _stored[status] = _stored.GetValueOrDefault(status) + 1;

    /// <summary>What a mapping did not read: nothing is passed over in silence.</summary>
    public void Tell(string file, MappedFacts mapped)
    {
        if (mapped.UnreadColumns.Count > 0)
        {
            _told.Add($"{file}: not read, as the mapping names them not: {string.Join(", ", mapped.UnreadColumns.Select(c => $"'{c}'"))}.");
        }

        if (mapped.LeftOut.Count > 0)
        {
            _told.Add($"{file}: {mapped.LeftOut.Count} lines gave no fact:");
            _told.AddRange(mapped.LeftOut.Take(MostShown).Select(l => $"  {file}, line {l.Line}: {l.Reason}"));
            _told.AddRange(More(mapped.LeftOut.Count));
        }
    }

    public void Reject(string file, int? line, IReadOnlyList<FieldProblem> problems)
    {
        if (!_rejectedLines.Add((file, line)) || _rejectedLines.Count > MostShown)
        {
            return;
        }

        foreach (var problem in problems)
        {
            var value = problem.Value is null ? "missing" : $"{problem.Value}";
            _shown.Add($"  {file}, line {line}: {(problem.Field.Length == 0 ? "the line" : problem.Field)} is {value}; allowed: {problem.Allowed}");
        }
    }

    public void Print(TextWriter writer)
    {
        if (dry)
        {
            writer.WriteLine("A dry run: nothing was stored. It would have been:");
        }

        writer.WriteLine($"Facts: {Count(AppendStatus.Accepted)} accepted, {Count(AppendStatus.Replaced)} replaced, {Count(AppendStatus.Duplicate)} duplicate. Lines rejected: {Rejected}.");
        foreach (var line in _shown.Concat(More(Rejected)).Concat(_told))
        {
            writer.WriteLine(line);
        }
    }

    private static string[] More(int all) => all > MostShown ? [$"  … and {all - MostShown} more lines."] : [];

    private int Count(AppendStatus status) => _stored.GetValueOrDefault(status);
}
