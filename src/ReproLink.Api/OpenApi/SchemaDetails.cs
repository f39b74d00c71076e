using System.Reflection;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace ReproLink.Api.OpenApi;

/// <summary>Closed lists of words, and no property that is not documented.</summary>
internal sealed class SchemaDetails : ISchemaFilter
{
    public void Apply(IOpenApiSchema schema, SchemaFilterContext context)
    {
        if (schema is not OpenApiSchema concrete)
        {
            return;
        }

        if (context.MemberInfo?.GetCustomAttribute<WordsAttribute>() is { } words)
        {
            concrete.Enum = [.. words.Words.Select(w => (JsonNode)JsonValue.Create(w))];
        }

        // Absent means absent: nothing is ever null.
        if (concrete.Type is { } type)
        {
            concrete.Type = type & ~JsonSchemaType.Null;
        }
    }
}
