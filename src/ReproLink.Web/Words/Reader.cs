using NodaTime;

namespace ReproLink.Web.Words;

/// <summary>How dates are written.</summary>
public enum DateStyle
{
    /// <summary>5 October 2026.</summary>
    DayFirst = 1,

    /// <summary>Oct 5, 2026.</summary>
    MonthFirst = 2,

    /// <summary>2026-10-05.</summary>
    YearFirst = 3,
}

/// <summary>How whoever looks wants to read: her own choice, or what her browser says.</summary>
public sealed record Reader
{
    private static readonly AsyncLocal<Reader?> Reading = new();

    /// <summary>The usual: English, 5 October 2026, Monday first, 24 hours.</summary>
    public static readonly Reader Usual = new();

    /// <summary>The reader of the request that is being answered.</summary>
    public static Reader Current => Reading.Value ?? Usual;

    /// <summary>The days a week may begin with.</summary>
    public static readonly IReadOnlyList<IsoDayOfWeek> WeekStarts = [IsoDayOfWeek.Monday, IsoDayOfWeek.Sunday, IsoDayOfWeek.Saturday];

    /// <summary>The language of dates, and of sentences once it has them all.</summary>
    public Language Language { get; init; } = Language.English;

    /// <summary>The language of sentences: a page is in one language, not half in another.</summary>
    public Language Sentences => Language.IsWhole ? Language : Language.English;

    /// <summary>How dates are written.</summary>
    public DateStyle Dates { get; init; } = DateStyle.DayFirst;

    /// <summary>First day of the week: Monday, Sunday or Saturday.</summary>
    public IsoDayOfWeek WeekStart { get; init; } = IsoDayOfWeek.Monday;

    /// <summary>Whether the clock goes to 12, with a.m. and p.m.</summary>
    public bool TwelveHours { get; init; }

    /// <summary>From here on in this request, this reader reads.</summary>
    public void Begin() => Reading.Value = this;

    /// <summary>Something as this reader would read it.</summary>
    public string Reads(Func<string> what)
    {
        ArgumentNullException.ThrowIfNull(what);
        var before = Reading.Value;
        Reading.Value = this;
        try
        {
            return what();
        }
        finally
        {
            Reading.Value = before;
        }
    }

    /// <summary>The weekdays in her order.</summary>
    public IEnumerable<IsoDayOfWeek> Weekdays => Enumerable.Range(0, 7).Select(i => (IsoDayOfWeek)((((int)WeekStart - 1 + i) % 7) + 1));

    /// <summary>The choice as a cookie keeps it, e.g. <c>de.YearFirst.Monday.24</c>.</summary>
    public override string ToString() => $"{Language.Code}.{Dates}.{WeekStart}.{(TwelveHours ? 12 : 24)}";

    /// <summary>The choice of a cookie; null = none that is known.</summary>
    public static Reader? Parse(string? text)
    {
        var parts = text?.Split('.');
        return parts is [var code, var dates, var first, "12" or "24"]
            && Language.Find(code) is { } language
            && Enum.TryParse<DateStyle>(dates, out var style) && Enum.IsDefined(style)
            && Enum.TryParse<IsoDayOfWeek>(first, out var start) && WeekStarts.Contains(start)
            ? new Reader { Language = language, Dates = style, WeekStart = start, TwelveHours = parts[3] == "12" }
            : null;
    }

    /// <summary>What a browser's <c>Accept-Language</c> says: the wanted languages in order of their weight.</summary>
    public static Reader Of(IEnumerable<string> wanted) => new()
    {
        Language = wanted.Select(w => Language.Find(w.Split('-')[0])).FirstOrDefault(l => l is not null) ?? Language.English,
    };
}
