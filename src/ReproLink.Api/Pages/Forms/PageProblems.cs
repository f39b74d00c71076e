using System.Text.RegularExpressions;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages.Forms;

/// <summary>What an answer refuses, as sentences beside fields.</summary>
internal static partial class PageProblems
{
    public static ProblemBody Of(DeskAnswer answer) => PageAnswers.Read<ProblemBody>(answer);

    /// <summary>The first sentence about each field; a place in a list counts for the list.</summary>
    public static IReadOnlyDictionary<string, string> Fields(ProblemBody problem) => (problem.Errors ?? [])
        .GroupBy(e => Name(e.Field))
        .ToDictionary(g => g.Key, g => string.Join(" ", g.Select(Sentence).Distinct()), StringComparer.Ordinal);

    /// <summary>The same of an item of a batch.</summary>
    public static IReadOnlyDictionary<string, string> Fields(IEnumerable<ItemProblem> problems) => problems
        .GroupBy(p => Name(p.Field ?? ""))
        .ToDictionary(g => g.Key, g => string.Join(" ", g.Select(p => Sentence(p.Type, p.Detail, p.Allowed)).Distinct()), StringComparer.Ordinal);

    private static string Sentence(ProblemError error) => Sentence(error.Type, error.Detail, error.Allowed);

    // What she typed stands in the field, and the field has a name of its own: neither is said over again.
    private static string Sentence(string type, string detail, string allowed) =>
        type == ProblemTypes.MissingProperty.Uri && detail.EndsWith($"is missing; allowed: {allowed}.", StringComparison.Ordinal) ? T("form.needed", InWords(allowed))
        : detail.EndsWith($"; allowed: {allowed}.", StringComparison.Ordinal) ? T("form.allowed-only", InWords(allowed))
        : InWords(detail);

    private static string InWords(string text) => Property().Replace(text, name => Say.Field(name.Groups[1].Value) is var word && word != name.Groups[1].Value ? $"“{word}”" : name.Value);

    private static string Name(string pointer)
    {
        var bare = pointer.TrimStart('/');
        var end = bare.IndexOf('/', StringComparison.Ordinal);
        return end < 0 ? bare : bare[..end];
    }

    [GeneratedRegex("'([a-zA-Z]+)'")]
    private static partial Regex Property();
}
