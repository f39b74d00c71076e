using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Programmes;

/// <summary>Values of settings in words, and what two versions differ in.</summary>
public static class SettingWords
{
    /// <summary>Values longer than this are counted instead of listed.</summary>
    private const int MostListed = 5;

    /// <summary>A setting's values in words.</summary>
    /// <param name="setting">The setting.</param>
    /// <param name="values">Its values as written in the field.</param>
    /// <param name="nameOf">The published name of a protocol's id.</param>
    public static string Of(Setting setting, IReadOnlyList<string> values, Func<string, string> nameOf) => setting.Kind switch
    {
        SettingKind.Truth => T(values.Count > 0 ? "prog.yes" : "prog.no"),
        _ when values.Count == 0 || values[0].Length == 0 => T("prog.nothing"),
        SettingKind.Weekdays => string.Join(", ", values.Select(Weekday)),
        SettingKind.Choice => T($"{setting.Key}.{values[0]}"),
        SettingKind.Protocol => values[0] == SettingBook.NoProtocol ? T("prog.noProtocol") : nameOf(values[0]),
        SettingKind.Time => TimeOf(values[0]),
        SettingKind.Dates => values.Count > MostListed ? Number("prog.dates", values.Count) : string.Join(", ", values.Select(DateOf)),
        SettingKind.Confirmations => string.Join("; ", values.Select(Confirmation)),
        _ => setting.Unit is { } unit ? $"{values[0]} {T("unit." + unit)}" : values[0],
    };

    /// <summary>What a version says otherwise than the one before, a sentence each.</summary>
    public static IReadOnlyList<string> Differences(Programme before, Programme after, Func<string, string> nameOf) =>
    [
        .. from setting in SettingBook.All
           let was = setting.Values(before)
           let now = setting.Values(after)
           where !was.SequenceEqual(now, StringComparer.Ordinal)
           where after.FirstService is not null || setting.Path == SettingBook.FirstServiceOn || !setting.Path.StartsWith("firstService.", StringComparison.Ordinal)
           select T("prog.differs", T(setting.Key), Of(setting, was, nameOf), Of(setting, now, nameOf)),
    ];

    /// <summary>What stands beside a number: from where to where.</summary>
    public static string Allowed(Setting setting) => setting.Hard switch
    {
        HardLimit.Floor => T("prog.floor", setting.Least, setting.Most),
        HardLimit.Cap => T("prog.cap", setting.Least, setting.Most),
        _ => T("prog.range", setting.Least, setting.Most),
    };

    /// <summary>A weekday's name.</summary>
    public static string Weekday(string word) =>
        Enum.TryParse<IsoDayOfWeek>(word, ignoreCase: true, out var day) && day != IsoDayOfWeek.None ? Say.Weekday(day) : word;

    private static string Confirmation(string value) =>
        value.Split(' ') is [var from, var to, var method] ? T("prog.confirmation", from, to, T("method." + method)) : value;

    private static string TimeOf(string value) =>
        NodaTime.Text.LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(value) is { Success: true } time ? Say.Clock(time.Value) : value;

    private static string DateOf(string value) =>
        NodaTime.Text.LocalDatePattern.Iso.Parse(value) is { Success: true } date ? Say.ShortDate(Day.From(date.Value)) : value;
}
