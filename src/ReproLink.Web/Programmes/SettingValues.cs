using ReproLink.Calendar.Programmes;

namespace ReproLink.Web.Programmes;

/// <summary>What stands in the fields of a programme's form, right or wrong, by path.</summary>
public sealed class SettingValues(IReadOnlyDictionary<string, IReadOnlyList<string>> values)
{
    /// <summary>The fields of a programme.</summary>
    public static SettingValues Of(Programme programme) =>
        new(SettingBook.All.ToDictionary(s => s.Path, s => s.Values(programme), StringComparer.Ordinal));

    /// <summary>All that stands in a field.</summary>
    public IReadOnlyList<string> All(string path) => values.GetValueOrDefault(path) ?? [];

    /// <summary>What stands in a field of one value; empty = nothing.</summary>
    public string One(string path) => All(path) is [var first, ..] ? first : "";

    /// <summary>Whether a word is ticked.</summary>
    public bool Has(string path, string word) => All(path).Contains(word, StringComparer.Ordinal);

    /// <summary>The same with another value in one field.</summary>
    public SettingValues With(string path, IReadOnlyList<string> value) =>
        new(new Dictionary<string, IReadOnlyList<string>>(values, StringComparer.Ordinal) { [path] = value });
}
