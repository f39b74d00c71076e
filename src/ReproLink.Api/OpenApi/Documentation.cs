using ReproLink.Api.Problems;

namespace ReproLink.Api.OpenApi;

/// <summary>A query parameter of an endpoint, for the document.</summary>
internal sealed record ParameterDoc(string Name, string Description, string Example, string Type = "string", string? Format = null, bool InHeader = false)
{
    public IReadOnlyList<string>? Words { get; init; }
}

/// <summary>A form of body an endpoint takes, for the document.</summary>
internal sealed record BodyDoc(Type Type, string MediaType, string Description, string Example);

/// <summary>An answer of an endpoint, for the document.</summary>
internal sealed record AnswerDoc(int Status, string Description, string MediaType, Type? Type, string? Example);

/// <summary>What the service itself posts as a consequence of an endpoint, for the document.</summary>
internal sealed record CallbackDoc(string Name, string Address, Type Type, string Description, string Example);

/// <summary>
/// What the OpenAPI document says of an endpoint, written beside it. Bodies and queries are read by hand, so that every
/// mistake is answered by name; nothing of this can be guessed from a signature.
/// </summary>
internal static class Documentation
{
    public static TBuilder Describe<TBuilder>(this TBuilder endpoint, string tag, string name, string summary, string description)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithTags(tag).WithName(name).WithSummary(summary).WithDescription(description);

    public static TBuilder Takes<TBuilder>(this TBuilder endpoint, ParameterDoc parameter)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithMetadata(parameter);

    public static TBuilder TakesDay<TBuilder>(this TBuilder endpoint, string name, string description, string example)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithMetadata(new ParameterDoc(name, description, example, Format: "date"));

    public static TBuilder TakesInstant<TBuilder>(this TBuilder endpoint, string name, string description)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithMetadata(new ParameterDoc(name, description, "2026-10-05T12:00:00Z", Format: "date-time"));

    public static TBuilder Reads<TBuilder>(this TBuilder endpoint, Type type, string description, string example, string mediaType = "application/json")
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithMetadata(new BodyDoc(type, mediaType, description, example));

    public static TBuilder Answers<TBuilder>(this TBuilder endpoint, int status, string description, string mediaType, Type? type = null, string? example = null)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithMetadata(new AnswerDoc(status, description, mediaType, type, example));

    public static TBuilder AnswersJson<TBuilder>(this TBuilder endpoint, int status, string description, Type type, string example)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.Answers(status, description, "application/json", type, example);

    /// <summary>The statuses of refusals.</summary>
    public static TBuilder Refuses<TBuilder>(this TBuilder endpoint, params int[] statuses)
        where TBuilder : IEndpointConventionBuilder
    {
        foreach (var status in statuses)
        {
            endpoint.WithMetadata(new RefusalDoc(status));
        }

        return endpoint;
    }

    /// <summary>What may stand in the way; that an idempotency key was used before goes without saying.</summary>
    public static TBuilder Conflicts<TBuilder>(this TBuilder endpoint, params ProblemType[] types)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithMetadata(new ConflictDoc(types));
}

/// <summary>A status an endpoint refuses with, for the document.</summary>
internal sealed record RefusalDoc(int Status);

/// <summary>What may stand in the way of a write that is sound in itself (409), for the document.</summary>
internal sealed record ConflictDoc(params IReadOnlyList<ProblemType> Types);
