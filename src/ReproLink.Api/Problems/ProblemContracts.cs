namespace ReproLink.Api.Problems;

/// <summary>A refused request (RFC 9457).</summary>
public sealed record ProblemBody
{
    /// <summary>Address of the kind of problem, relative to the service; its page says what to do.</summary>
    /// <example>/problems/invalid-request</example>
    public required string Type { get; init; }

    /// <summary>The kind of problem in words.</summary>
    /// <example>Something in the request is not allowed</example>
    public required string Title { get; init; }

    /// <summary>HTTP status.</summary>
    /// <example>400</example>
    public required int Status { get; init; }

    /// <summary>What is wrong with this request.</summary>
    /// <example>'timeZone' is not allowed: a time zone of the IANA database, e.g. America/Chicago.</example>
    public required string Detail { get; init; }

    /// <summary>Every field that is wrong.</summary>
    public IReadOnlyList<ProblemError>? Errors { get; init; }
}

/// <summary>One wrong field of a refused request.</summary>
public sealed record ProblemError
{
    /// <summary>JSON pointer to the field in the body, or the name of a query parameter.</summary>
    /// <example>/timeZone</example>
    public required string Field { get; init; }

    /// <summary>The value as sent; absent when there was none.</summary>
    /// <example>Chicago</example>
    public object? Value { get; init; }

    /// <summary>What is allowed.</summary>
    /// <example>a time zone of the IANA database, e.g. America/Chicago</example>
    public required string Allowed { get; init; }

    /// <summary>What is wrong, in a sentence.</summary>
    /// <example>'timeZone' is "Chicago".</example>
    public required string Detail { get; init; }

    /// <summary>Address of the kind of problem.</summary>
    /// <example>/problems/invalid-value</example>
    public required string Type { get; init; }
}

/// <summary>Why one item of a batch was rejected.</summary>
public sealed record ItemProblem
{
    /// <summary>Address of the kind of problem, relative to the service.</summary>
    /// <example>/problems/invalid-value</example>
    public required string Type { get; init; }

    /// <summary>The kind of problem in words.</summary>
    /// <example>A value is not allowed</example>
    public required string Title { get; init; }

    /// <summary>What is wrong with this item.</summary>
    /// <example>'date' is "2026-02-30".</example>
    public required string Detail { get; init; }

    /// <summary>JSON pointer to the field in the batch.</summary>
    /// <example>/1/date</example>
    public required string Pointer { get; init; }

    /// <summary>The field in the item; absent = the item itself.</summary>
    /// <example>date</example>
    public string? Field { get; init; }

    /// <summary>The value as sent; absent when there was none.</summary>
    /// <example>2026-02-30</example>
    public object? Value { get; init; }

    /// <summary>What is allowed.</summary>
    /// <example>a date that exists, YYYY-MM-DD</example>
    public required string Allowed { get; init; }

    /// <summary>Line of a CSV body, the header being line 1.</summary>
    /// <example>3</example>
    public int? Line { get; init; }
}
