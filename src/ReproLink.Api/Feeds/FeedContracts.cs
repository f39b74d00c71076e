using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Feeds;

/// <summary>A calendar link to make.</summary>
public sealed record FeedLinkInput
{
    /// <summary>Who it is for.</summary>
    /// <example>Dr. Fields, phone</example>
    public required string Name { get; init; }

    /// <summary>One entry for each line of work, or one for each day; absent = `item`.</summary>
    /// <example>day</example>
    [Words("item", "day")]
    public string? Style { get; init; }
}

/// <summary>A secret link to the herd's calendar.</summary>
public sealed record FeedLinkAnswer
{
    /// <summary>Its number.</summary>
    /// <example>1</example>
    public required long Link { get; init; }

    /// <summary>Who it is for.</summary>
    /// <example>Dr. Fields, phone</example>
    public required string Name { get; init; }

    /// <summary>One entry for each line of work, or one for each day.</summary>
    /// <example>day</example>
    [Words("item", "day")]
    public required string Style { get; init; }

    /// <summary>The address to subscribe to. It is shown once, when the link is made: whoever has it sees the calendar.</summary>
    public string? Address { get; init; }

    /// <summary>When it was made.</summary>
    public required Instant Created { get; init; }

    /// <summary>By which key.</summary>
    /// <example>manager</example>
    public required string CreatedBy { get; init; }

    /// <summary>When it was revoked; absent = it holds.</summary>
    public Instant? Revoked { get; init; }
}

/// <summary>The links of a herd.</summary>
public sealed record FeedLinkList
{
    /// <summary>Oldest first.</summary>
    public required IReadOnlyList<FeedLinkAnswer> Links { get; init; }
}
