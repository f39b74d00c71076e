using System.Reflection;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace ReproLink.Api.OpenApi;

/// <summary>Closed lists of words, and no property that is not documented.</summary>
internal sealed class SchemaDetails : ISchemaFilter
{
    private static readonly Dictionary<string, string> Signs = new() { ["."] = "point", [","] = "comma", [";"] = "semicolon" };

    public void Apply(IOpenApiSchema schema, SchemaFilterContext context)
    {
        if (schema is not OpenApiSchema concrete)
        {
            return;
        }

        if (context.MemberInfo?.GetCustomAttribute<WordsAttribute>() is { } words)
        {
            concrete.Enum = [.. words.Words.Select(w => (JsonNode)JsonValue.Create(w))];
            Name(concrete, words.Words);
        }

        // Absent means absent: nothing is ever null.
        if (concrete.Type is { } type)
        {
            concrete.Type = type & ~JsonSchemaType.Null;
        }
    }

    // Signs are no names in any language: generators of clients read these instead.
    private static void Name(OpenApiSchema schema, IReadOnlyList<string> words)
    {
        if (words.Any(Signs.ContainsKey))
        {
            schema.Extensions ??= new Dictionary<string, IOpenApiExtension>();
            var names = new JsonArray([.. words.Select(w => (JsonNode)JsonValue.Create(Signs.GetValueOrDefault(w, w)))]);
            schema.Extensions["x-enum-varnames"] = new JsonNodeExtension(names);
            schema.Extensions["x-enumNames"] = new JsonNodeExtension(names.DeepClone());
        }
    }
}
