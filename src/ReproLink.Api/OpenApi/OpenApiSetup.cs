using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using NodaTime;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace ReproLink.Api.OpenApi;

/// <summary>The document at /openapi/v1.json and the page over it at /docs.</summary>
internal static class OpenApiSetup
{
    public const string Scheme = "key";

    private const string About = """
        From dated facts about dairy cows to the question which of them to bleed this week for a pregnancy test, and why not the others.

        Facts go in (calvings, services, samples, results); lists are computed from them and a written programme, and nothing that is only planned is
        stored. Every line explains itself by rule and fact. Prostaglandin given to a pregnant cow ends the pregnancy: whatever cannot be settled
        withholds it.

        Dates are `YYYY-MM-DD`, local times `HH:mm`, instants UTC with `Z`. There are no nulls: what is absent is left out. Refusals are RFC 9457 problems;
        each names the field, the value as sent and what is allowed, and /problems lists them all.
        """;

    public static void AddReproLinkOpenApi(this IServiceCollection services)
    {
        services.AddEndpointsApiExplorer();
        services.AddSwaggerGen(o =>
        {
            o.SwaggerDoc("v1", new OpenApiInfo
            {
                Title = "ReproLink",
                Version = "1",
                Description = About,
                License = new OpenApiLicense { Name = "MIT", Url = new Uri("https://opensource.org/license/mit") },
            });
            o.AddServer(new OpenApiServer { Url = "/", Description = "Where this document is served." });
            o.AddSecurityDefinition(Scheme, new OpenApiSecurityScheme
            {
                Type = SecuritySchemeType.Http,
                Scheme = "bearer",
                Description = "A key made by `keys create`. Roles: manager, exchange, veterinarian, reader.",
            });
            MapTypes(o);
            NameSchemas(o);
            o.SupportNonNullableReferenceTypes();
            o.UseAllOfToExtendReferenceSchemas();
            o.IncludeXmlComments(typeof(OpenApiSetup).Assembly);
            o.SchemaFilter<SchemaDetails>();
            o.OperationFilter<OperationDetails>();
            o.DocumentFilter<TagDetails>();
        });
    }

    public static void UseReproLinkOpenApi(this WebApplication app)
    {
        app.UseSwagger(o =>
        {
            o.RouteTemplate = "openapi/{documentName}.json";
            o.OpenApiVersion = OpenApiSpecVersion.OpenApi3_0;
        });
        app.UseSwaggerUI(o =>
        {
            o.RoutePrefix = "docs";
            o.DocumentTitle = "ReproLink";
            o.SwaggerEndpoint("/openapi/v1.json", "ReproLink");
        });
    }

    private static void MapTypes(SwaggerGenOptions o)
    {
        o.MapType<LocalDate>(() => Text("date", "2026-10-05"));
        // The format `time` has seconds and a zone; a herd's time of day has neither.
        o.MapType<LocalTime>(() => new OpenApiSchema { Type = JsonSchemaType.String, Pattern = "^([01][0-9]|2[0-3]):[0-5][0-9]$", Example = JsonValue.Create("07:00") });
        o.MapType<Instant>(() => Text("date-time", "2026-10-05T12:00:00Z"));
        o.MapType<Stream>(() => new OpenApiSchema { Type = JsonSchemaType.String, Format = "binary" });
    }

    // Generators make the names of types of these: what is only a habit of this code is left off.
    private static void NameSchemas(SwaggerGenOptions o)
    {
        const string Habit = "Contract";
        var usual = o.SchemaGeneratorOptions.SchemaIdSelector;
        o.CustomSchemaIds(type => usual(type) is var name && name.EndsWith(Habit, StringComparison.Ordinal) ? name[..^Habit.Length] : usual(type));
    }

    private static OpenApiSchema Text(string format, string example) =>
        new() { Type = JsonSchemaType.String, Format = format, Example = JsonValue.Create(example) };
}
