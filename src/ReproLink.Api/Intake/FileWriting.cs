using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Intake;

/// <summary>How a sender writes CSV files.</summary>
public abstract record FileWriting
{
    /// <summary>How they write dates, tried in order: d, dd, M, MM, yy, yyyy and what stands between; absent = yyyy-MM-dd. A time H:mm may follow.</summary>
    public IReadOnlyList<string>? Dates { get; init; }

    /// <summary>What stands before the decimals; absent = a point.</summary>
    /// <example>,</example>
    [Words(".", ",")]
    public string? Decimal { get; init; }

    /// <summary>What stands between the cells; absent = a comma.</summary>
    /// <example>;</example>
    [Words(",", ";", "tab")]
    public string? Delimiter { get; init; }

    /// <summary>How letters are stored; absent = utf-8. A byte order mark is believed before this.</summary>
    /// <example>windows-1252</example>
    [Words("utf-8", "utf-16", "windows-1252")]
    public string? Letters { get; init; }
}
