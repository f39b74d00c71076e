using System.Text.Json;
using System.Text.RegularExpressions;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Web.Programmes;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>
/// The form of a programme, read as if its settings had been sent as JSON: one reader judges both doors. Each problem is said at
/// the field it is about, under the field's own name.
/// </summary>
internal static partial class ProgrammeForm
{
    public static (Programme? Programme, IReadOnlyDictionary<string, string> Problems, string Json) Read(
        SettingValues values, string inForceFrom, Day today, ProtocolCatalogue catalogue)
    {
        var said = new Dictionary<string, string>(StringComparer.Ordinal);
        var json = ProgrammeFormJson.Of(values, inForceFrom, said).ToJsonString();
        using var document = JsonDocument.Parse(json);
        var problems = new FieldProblems();
        var programme = ProgrammeReader.Read(new ObjectReader(document.RootElement, problems), today, catalogue);
        foreach (var problem in problems.List)
        {
            said.TryAdd(FieldOf(problem.Field), Sentence(problem));
        }

        return (said.Count == 0 ? programme : null, said, json);
    }

    private static string FieldOf(string pointer)
    {
        var path = pointer.Replace('/', '.');
        return path == "firstService" ? SettingBook.FirstServiceOn : path;
    }

    private static string Sentence(FieldProblem problem)
    {
        if (SettingBook.Find(FieldOf(problem.Field)) is { Kind: SettingKind.Protocol })
        {
            // The reader says what does not fit; the list stands in the field itself.
            return WhereToSend().Replace(problem.Detail.Split("; allowed")[0], "") + ".";
        }

        var allowed = Quoted().Replace(problem.Allowed, match => $"“{NameOf(problem.Field, match.Groups[1].Value)}”");
        return problem.Value is JsonElement value ? T("problem.notUsable", Shown(value), allowed) : T("problem.missing", allowed);
    }

    private static string Shown(JsonElement value) => value.ValueKind == JsonValueKind.String ? $"“{value.GetString()}”" : value.GetRawText();

    // The reader names a neighbour by its property; people know it by the name of its field.
    private static string NameOf(string field, string property)
    {
        var at = field.LastIndexOf('/');
        var path = at < 0 ? property : field[..at].Replace('/', '.') + "." + property;
        return SettingBook.Find(path) is { } setting ? T(setting.Key) : property;
    }

    [GeneratedRegex(@" \(POST [^)]*\)")]
    private static partial Regex WhereToSend();

    [GeneratedRegex("'([A-Za-z]+)'")]
    private static partial Regex Quoted();
}
