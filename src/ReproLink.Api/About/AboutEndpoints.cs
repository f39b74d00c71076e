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
}

/// <summary>Whether the service can do its work.</summary>
public sealed record HealthAnswer
{
    /// <summary><c>healthy</c>: the database can be read and written.</summary>
    /// <example>healthy</example>
    public required string Status { get; init; }
}

/// <summary>The service itself.</summary>
internal static class AboutEndpoints
{
    private static readonly VersionAnswer Version = new()
    {
        Name = "ReproLink",
        Version = typeof(AboutEndpoints).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+')[0],
    };

    public static void MapAbout(this IEndpointRouteBuilder app)
    {
        app.MapGet("/version", () => Results.Ok(Version))
            .Describe("Service", "getVersion", "Name and version", "Which build answers. No key is needed.")
            .AnswersJson(200, "The version.", typeof(VersionAnswer), """{"name":"ReproLink","version":"0.1.0"}""");
        app.MapGet("/health", Health)
            .Describe("Service", "getHealth", "Whether the service can work", "For a supervisor. No key is needed.")
            .AnswersJson(200, "It can.", typeof(HealthAnswer), """{"status":"healthy"}""")
            .Refuses(503);
    }

    private static IResult Health(Store store) => store.IsHealthy()
        ? Results.Ok(new HealthAnswer { Status = "healthy" })
        : Problem.Of(ProblemTypes.Unavailable, "The database cannot be read or written.");
}
