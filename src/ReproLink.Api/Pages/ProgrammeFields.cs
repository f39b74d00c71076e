using ReproLink.Web.Programmes;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>The fields of a programme's form as sent.</summary>
internal static class ProgrammeFields
{
    private const int MostConfirmations = 10;
    private const int LongestSpan = 366;

    public static SettingValues Of(IFormCollection form)
    {
        var values = new Dictionary<string, IReadOnlyList<string>>(StringComparer.Ordinal);
        foreach (var setting in SettingBook.All)
        {
            values[setting.Path] = setting.Kind switch
            {
                SettingKind.Confirmations => Confirmations(form),
                SettingKind.Dates => Lines(form[setting.Path]),
                _ => [.. form[setting.Path].Select(v => v?.Trim() ?? "").Where(v => v.Length > 0)],
            };
            if (setting.Kind == SettingKind.Dates)
            {
                values[setting.Path + ".from"] = [form[setting.Path + ".from"].ToString()];
                values[setting.Path + ".to"] = [form[setting.Path + ".to"].ToString()];
            }
        }

        return new SettingValues(values);
    }

    /// <summary>Adds the spans of days that were given to the lists of closed dates.</summary>
    public static SettingValues WithSpans(SettingValues values, Dictionary<string, string> problems)
    {
        foreach (var setting in SettingBook.All.Where(s => s.Kind == SettingKind.Dates))
        {
            var (from, to) = (values.One(setting.Path + ".from"), values.One(setting.Path + ".to"));
            if (from.Length + to.Length == 0)
            {
                continue;
            }

            // One day alone is a span of itself.
            if (!Reading.Dates.TryDay(from.Length > 0 ? from : to, out var first) || !Reading.Dates.TryDay(to.Length > 0 ? to : from, out var last)
                || last < first || last - first >= LongestSpan)
            {
                problems[setting.Path] = T("problem.dateSpan", LongestSpan);
                continue;
            }

            var days = Enumerable.Range(0, last - first + 1).Select(i => (first + i).ToString());
            values = values
                .With(setting.Path, [.. values.All(setting.Path).Concat(days).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)])
                .With(setting.Path + ".from", []).With(setting.Path + ".to", []);
        }

        return values;
    }

    private static List<string> Lines(string? text) => [.. (text ?? "").Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)];

    // An empty row counts for nothing; one half filled in is kept, and refused at its field.
    private static List<string> Confirmations(IFormCollection form)
    {
        var rows = new List<string>();
        for (var i = 0; i < MostConfirmations; i++)
        {
            var (from, to) = (Word(form, $"confirmations.{i}.from"), Word(form, $"confirmations.{i}.to"));
            if (from.Length + to.Length > 0)
            {
                rows.Add($"{from} {to} {(Word(form, $"confirmations.{i}.method") is { Length: > 0 } method ? method : "blood")}");
            }
        }

        return rows;
    }

    // A row is kept as three words.
    private static string Word(IFormCollection form, string name) => form[name].ToString().Trim().Replace(' ', '_');
}
