using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.Commands.Importing;

/// <summary>What became of the lines.</summary>
internal sealed class ImportSummary
{
    private const int MostShown = 10;
    private readonly Dictionary<AppendStatus, int> _stored = [];
    private readonly List<string> _shown = [];
    private readonly HashSet<(string, int?)> _rejectedLines = [];

    public int Rejected => _rejectedLines.Count;

    public void Add(AppendStatus status) => _stored[status] = _stored.GetValueOrDefault(status) + 1;

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
        writer.WriteLine($"Facts: {Count(AppendStatus.Accepted)} accepted, {Count(AppendStatus.Replaced)} replaced, {Count(AppendStatus.Duplicate)} duplicate. Lines rejected: {Rejected}.");
        foreach (var line in _shown)
        {
            writer.WriteLine(line);
        }

        if (Rejected > MostShown)
        {
            writer.WriteLine($"  … and {Rejected - MostShown} more lines.");
        }
    }

    private int Count(AppendStatus status) => _stored.GetValueOrDefault(status);
}
