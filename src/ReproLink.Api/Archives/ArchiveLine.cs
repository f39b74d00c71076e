using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Api.Archives;

/// <summary>One line of a file of the zip, taken apart cell by cell; what is wrong is named by file, line and column.</summary>
internal sealed class ArchiveLine(string file, IReadOnlyDictionary<string, int> columns, FieldProblems problems)
{
    /// <summary>Names and ids, with room for what the exchange standard's doors put behind them.</summary>
    private static readonly TextRule Name = new(300, true);

    private static readonly TextRule Words = new(2000, false);

    private string[] _cells = [];
    private int _line;

    public FieldProblems Problems => problems;

    /// <summary>Goes on to the next line.</summary>
    public ArchiveLine At(string[] cells, int line)
    {
        (_cells, _line) = (cells, line);
        return this;
    }

    /// <summary>A name or id that must be there.</summary>
    public string NameOf(string column) => Checked(column, Name, required: true) ?? "";

    /// <summary>A name or id; null = an empty cell.</summary>
    public string? NameOrNull(string column) => Checked(column, Name, required: false);

    /// <summary>Whoever did it, as the key or person is called.</summary>
    public string By(string column) => Checked(column, Words, required: true) ?? "";

    /// <summary>Words of people; null = an empty cell.</summary>
    public string? WordsOf(string column) => Checked(column, Words, required: false);

    /// <summary>A text kept as received, whatever it is.</summary>
    public string Raw(string column) => _cells[columns[column]];

    /// <summary>The same; null = an empty cell.</summary>
    public string? RawOrNull(string column) => Raw(column) is { Length: > 0 } text ? text : null;

    public int Whole(string column) => WholeOrNull(column) ?? Missing<int>(column, "a whole number");

    public int? WholeOrNull(string column) => Read<int>(column, "a whole number", static (string text, out int number) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number));

    public double? Number(string column) => Read<double>(column, "a number", static (string text, out double number) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out number) && !double.IsNaN(number));

    public bool? Truth(string column) => Read<bool>(column, "true or false", static (string text, out bool flag) =>
    {
        flag = text == "true";
        return text is "true" or "false";
    });

    public Day DayOf(string column) => DayOrNull(column) ?? Missing<Day>(column, Dates.AllowedDay);

    public Day? DayOrNull(string column) => Read<Day>(column, Dates.AllowedDay, Dates.TryDay);

    public LocalTime? Time(string column) => Read<LocalTime>(column, "a time of day, HH:mm:ss", static (string text, out LocalTime time) =>
        LocalTimePattern.ExtendedIso.Parse(text).TryGetValue(default, out time));

    public Instant Moment(string column) => MomentOrNull(column) ?? Missing<Instant>(column, Dates.AllowedInstant);

    public Instant? MomentOrNull(string column) => Read<Instant>(column, Dates.AllowedInstant, Dates.TryInstant);

    public FactId? Fact(string column) => Read<FactId>(column, "a fact's id", static (string text, out FactId id) => FactId.TryParse(text, out id));

    public T Word<T>(string column, Vocabulary<T> words)
        where T : struct =>
        WordOrNull(column, words) ?? Missing<T>(column, words.Allowed);

    public T? WordOrNull<T>(string column, Vocabulary<T> words)
        where T : struct =>
        Read<T>(column, words.Allowed, words.TryRead);

    public void Refuse(string column, string allowed)
    {
        var cell = Raw(column);
        problems.Add(cell.Length == 0 ? ProblemTypes.MissingProperty : ProblemTypes.InvalidValue, $"{file}/{_line}/{column}", cell.Length == 0 ? null : cell, allowed,
            $"{file}, line {_line}: '{column}' is {(cell.Length == 0 ? "missing" : cell.Length > 60 ? "a long text" : $"\"{cell}\"")}; allowed: {allowed}.");
    }

    private delegate bool TryRead<T>(string text, out T value);

    private T? Read<T>(string column, string allowed, TryRead<T> tryRead)
        where T : struct
    {
        if (Raw(column) is not { Length: > 0 } text)
        {
            return null;
        }

        if (tryRead(text, out var value))
        {
            return value;
        }

        Refuse(column, allowed);
        return null;
    }

    private T Missing<T>(string column, string allowed)
        where T : struct
    {
        // What was there and could not be read is refused already.
        if (Raw(column).Length == 0)
        {
            Refuse(column, allowed);
        }

        return default;
    }

    private string? Checked(string column, TextRule rule, bool required)
    {
        var text = Raw(column);
        if (text.Length == 0 ? !required : rule.Accepts(text))
        {
            return text.Length == 0 ? null : text;
        }

        Refuse(column, rule.Allowed);
        return null;
    }
}
