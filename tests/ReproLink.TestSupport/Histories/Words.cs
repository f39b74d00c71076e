using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Dates;

namespace ReproLink.TestSupport.Histories;

/// <summary>The words of one line, taken one by one; a word nobody took is a mistake in the line.</summary>
public sealed class Words(string line)
{
    private readonly List<string> _left = [.. line.Split(' ', StringSplitOptions.RemoveEmptyEntries)];

    /// <summary>Takes the next word.</summary>
    public string Take(string what)
    {
        if (_left.Count == 0) throw Wrong($"{what} is missing");
        var word = _left[0];
        _left.RemoveAt(0);
        return word;
    }

    /// <summary>Takes the next word if it is a date.</summary>
    public Day? TakeDay() => _left.Count > 0 && LocalDatePattern.Iso.Parse(_left[0]) is { Success: true } date
        ? Day.From(Drop(date.Value))
        : null;

    /// <summary>Takes the next word, which must be a date.</summary>
    public Day NeedDay(string what) => TakeDay() ?? throw Wrong($"{what} must be a date YYYY-MM-DD");

    /// <summary>Takes the next word if it is a time of day.</summary>
    public LocalTime? TakeTime() => _left.Count > 0 && LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(_left[0]) is { Success: true } time
        ? Drop(time.Value)
        : null;

    /// <summary>Takes a word wherever it stands.</summary>
    public bool Flag(string word) => _left.Remove(word);

    /// <summary>Takes a word and the one after it, wherever they stand; null = not there.</summary>
    public string? Value(string key)
    {
        var at = _left.IndexOf(key);
        if (at < 0) return null;
        if (at + 1 >= _left.Count) throw Wrong($"{key} needs a value");
        var value = _left[at + 1];
        _left.RemoveRange(at, 2);
        return value;
    }

    /// <summary>Like <see cref="Value"/>, as a date.</summary>
    public Day? DayValue(string key) => Value(key) is { } text ? new Words(text).NeedDay(key) : null;

    /// <summary>Like <see cref="Value"/>, as a whole number.</summary>
    public int? IntValue(string key) => Value(key) is { } text ? int.Parse(text, CultureInfo.InvariantCulture) : null;

    /// <summary>Like <see cref="Value"/>, as an instant <c>2026-10-08T12:00:00Z</c>.</summary>
    public Instant? InstantValue(string key) => Value(key) is { } text ? InstantPattern.General.Parse(text).GetValueOrThrow() : null;

    /// <summary>The remaining words, taken.</summary>
    public IReadOnlyList<string> Rest()
    {
        var rest = _left.ToList();
        _left.Clear();
        return rest;
    }

    /// <summary>Fails when words are left over.</summary>
    public void End()
    {
        if (_left.Count > 0) throw Wrong($"'{string.Join(' ', _left)}' is not understood");
    }

    /// <summary>A mistake in this line.</summary>
    public FormatException Wrong(string what) => new($"{what} in: {line}");

    private T Drop<T>(T value)
    {
        _left.RemoveAt(0);
        return value;
    }
}
