using System.ComponentModel.DataAnnotations;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Exchange.Messages;

/// <summary>A page of messages, in the order in which they were modified.</summary>
public sealed record MemberPage<T>
{
    /// <summary>Where this page stands.</summary>
    [Required]
    public PageView View { get; init; } = new();

    /// <summary>The messages.</summary>
    [Required]
    public IReadOnlyList<T> Member { get; init; } = [];
}

/// <summary>Where a page stands.</summary>
public sealed record PageView
{
    /// <summary>Most messages of a page.</summary>
    /// <example>100</example>
    public int PageSize { get; init; }

    /// <summary>Address of the next page; absent on the last.</summary>
    public string? Next { get; init; }
}

/// <summary>A refused request in the standard's form.</summary>
public sealed record ErrorsAnswer
{
    /// <summary>Everything that is wrong.</summary>
    [Required]
    public IReadOnlyList<ExchangeMessage> Errors { get; init; } = [];
}

/// <summary>Something to know about a request or an item.</summary>
public sealed record ExchangeMessage
{
    /// <summary>Address of the kind of problem.</summary>
    /// <example>/problems/invalid-value</example>
    public string? Type { get; init; }

    /// <summary>How bad it is.</summary>
    /// <example>Error</example>
    [Words("Information", "Warning", "Error")]
    public string? Severity { get; init; }

    /// <summary>HTTP status.</summary>
    /// <example>400</example>
    public int? Status { get; init; }

    /// <summary>The kind of problem in words.</summary>
    /// <example>A value is not allowed</example>
    public string? Title { get; init; }

    /// <summary>What it is here.</summary>
    /// <example>'result' is "Inconclusive"; allowed: one of Empty, Pregnant, Multiple, Unknown.</example>
    public string? Detail { get; init; }

    /// <summary>JSON pointer to the property, or the name of the query parameter.</summary>
    /// <example>/result</example>
    public string? Instance { get; init; }
}

/// <summary>What became of one item.</summary>
public sealed record BatchResult
{
    /// <summary>Its id here; of a result that waits, the id it waits under; absent when it was refused.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? Id { get; init; }

    /// <summary>The item's own identity, so that it can be told which item it was.</summary>
    public MetaContract? Meta { get; init; }

    /// <summary>What is wrong with it or odd about it.</summary>
    public IReadOnlyList<ExchangeMessage>? Messages { get; init; }
}
