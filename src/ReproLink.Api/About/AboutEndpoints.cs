using System.Reflection;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.About;

/// <summary>Which build answers.</summary>
public sealed record VersionAnswer
{
    /// <summary>The program's name.</summary>
    /// <example>ReproLink</example>
    public required string Name { get; init; }

    /// <summary>Its version.</summary>
    /// <example>0.1.0</example>
    public required string Version { get; init; }

    /// <summary>The version of the exchange standard whose schemas its messages follow.</summary>
    /// <example>ICAR ADE 1.4</example>
    public required string Exchange { get; init; }
}

/// <summary>Whether the service can do its work.</summary>
public sealed record HealthAnswer
{
    /// <summary><c>live</c>: the process answers; <c>ready</c>: the database can be read and written.</summary>
    /// <example>ready</example>
    [Words("live", "ready")]
    public required string Status { get; init; }
}

/// <summary>The service itself.</summary>
internal static class AboutEndpoints
{
    private static readonly VersionAnswer Version = new()
    {
        Name = "ReproLink",
        Version = typeof(AboutEndpoints).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+')[0],
        Exchange = "ICAR ADE 1.4",
    };

    public static void MapAbout(this IEndpointRouteBuilder app)
    {
        app.MapGet("/version", () => Results.Ok(Version))
            .Describe("Service", "getVersion", "Name and version", "Which build answers. No key is needed.")
            .AnswersJson(200, "The version.", typeof(VersionAnswer), """{"name":"ReproLink","version":"0.1.0","exchange":"ICAR ADE 1.4"}""");
        app.MapGet("/health/live", static () => Results.Ok(new HealthAnswer { Status = "live" }))
            .DisableRateLimiting()
            .Describe("Service", "getLiveness", "Whether the process answers", "For a supervisor: without this answer, start it again. No key is needed.")
            .AnswersJson(200, "It does.", typeof(HealthAnswer), """{"status":"live"}""");
        app.MapGet("/health/ready", Ready)
            .DisableRateLimiting()
            .Describe("Service", "getReadiness", "Whether the service can work", "For a balancer or supervisor: while it refuses, send nobody here. No key is needed.")
            .AnswersJson(200, "It can.", typeof(HealthAnswer), """{"status":"ready"}""")
            .Refuses(503);
        app.MapGet("/health", Ready)
            .DisableRateLimiting()
            .Describe("Service", "getHealth", "Whether the service can work", "The same as `/health/ready`, for a supervisor that asks one address only.")
            .AnswersJson(200, "It can.", typeof(HealthAnswer), """{"status":"ready"}""")
            .Refuses(503);
    }

    private static IResult Ready(Store store) => store.IsHealthy()
        ? Results.Ok(new HealthAnswer { Status = "ready" })
        : Problem.Of(ProblemTypes.Unavailable, "The database cannot be read or written.");
}
