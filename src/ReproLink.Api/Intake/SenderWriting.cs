using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;

namespace ReproLink.Api.Intake;

/// <summary>How a sender writes: what stands between cells, letters, dates, times and numbers.</summary>
internal sealed class SenderWriting
{
    public const string WesternEuropean = "windows-1252";
    public const string Utf8 = "utf-8";
    public const string Utf16 = "utf-16";

    private static readonly LocalTimePattern[] Times = [.. ((string[])["HH:mm", "H:mm", "HH:mm:ss", "H:mm:ss"]).Select(LocalTimePattern.CreateWithInvariantCulture)];

    private readonly LocalDatePattern[] _dates;
    private readonly LocalDateTimePattern[] _moments;
    private readonly bool _commaBeforeDecimals;

    static SenderWriting() => Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);

    public SenderWriting(IReadOnlyList<string>? dates, string? decimalSign, string? delimiter, string? letters)
    {
        string[] patterns = [.. dates ?? ["yyyy-MM-dd"]];
        _dates = [.. patterns.Select(DatePattern)];
        _moments = [.. patterns.SelectMany(d => (string[])[Years(d) + " HH:mm", Years(d) + " H:mm", Years(d) + " HH:mm:ss"]).Select(MomentPattern)];
        _commaBeforeDecimals = decimalSign == ",";
        Delimiter = delimiter switch { ";" => ';', "tab" => '\t', _ => ',' };
        Letters = letters switch
        {
            WesternEuropean => Encoding.GetEncoding(1252),
            Utf16 => Encoding.Unicode,
            _ => Encoding.UTF8,
        };
    }

    public char Delimiter { get; }

    public Encoding Letters { get; }

    /// <summary>Headings and words as they are compared.</summary>
    public static string Folded(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToUpperInvariant();

    public static bool IsDatePattern(string pattern)
    {
        if (pattern.Length > 20 || pattern.Any(c => char.IsLetter(c) && c is not ('d' or 'M' or 'y')))
        {
            return false;
        }

        try
        {
            // A pattern without day, month or year would read every file, and wrongly.
            var tried = DatePattern(pattern);
            return tried.Parse(tried.Format(new LocalDate(2026, 11, 25))) is { Success: true } back && back.Value == new LocalDate(2026, 11, 25)
                && MomentPattern(Years(pattern) + " HH:mm") is not null;
        }
        catch (InvalidPatternException)
        {
            return false;
        }
    }

    /// <summary>A date as this sender writes it; null = it is none.</summary>
    public LocalDate? Date(string cell)
    {
        foreach (var pattern in _dates)
        {
            if (pattern.Parse(cell) is { Success: true } date)
            {
                return date.Value;
            }
        }

        return null;
    }

    /// <summary>A date with a time after it; null = it is none.</summary>
    public LocalDateTime? Moment(string cell)
    {
        foreach (var pattern in _moments)
        {
            if (pattern.Parse(cell) is { Success: true } moment)
            {
                return moment.Value;
            }
        }

        return null;
    }

    /// <summary>A time of day; null = it is none.</summary>
    public static LocalTime? Time(string cell)
    {
        foreach (var pattern in Times)
        {
            if (pattern.Parse(cell) is { Success: true } time)
            {
                return time.Value;
            }
        }

        return null;
    }

    /// <summary>A number as we write it.</summary>
    public string Number(string cell) => _commaBeforeDecimals ? cell.Replace(',', '.') : cell;

    private static LocalDatePattern DatePattern(string pattern) =>
        LocalDatePattern.Create(Years(pattern), CultureInfo.InvariantCulture, new LocalDate(2000, 1, 1));

    private static LocalDateTimePattern MomentPattern(string pattern) => LocalDateTimePattern.CreateWithInvariantCulture(pattern);

    // People write y for the year; the pattern's own y counts years of an era.
    private static string Years(string pattern) => pattern.Replace('y', 'u');
}
