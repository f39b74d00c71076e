using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.OpenApi;

namespace ReproLink.Api.OpenApi;

/// <summary>The parts of an address that vary.</summary>
internal static partial class RouteParameters
{
    private static readonly Dictionary<string, (string Description, string Example)> Known = new()
    {
        ["scheme"] = ("Scheme of the location.", "farm"),
        ["id"] = ("Id of the location in its scheme.", "north-ridge"),
        ["factId"] = ("A fact's id, as answered.", "f_0c5t9x2m7h1ka"),
        ["protocolId"] = ("A protocol's id.", "ovsynch-56"),
        ["webhook"] = ("A webhook's number.", "1"),
        ["delivery"] = ("A message's id: the `webhook-id` it was sent with.", "msg_4f9d2a71c3b84e06a5d1e2f3b4c5d6e7"),
        ["link"] = ("A calendar link's number.", "1"),
        ["animal"] = ("The herd's own name of the animal.", "1042"),
        ["round"] = ("A sampling round, `R12` or `12`.", "R12"),
        ["tube"] = ("A tube of the round, as printed on its label.", "R12-003"),
        ["sender"] = ("Who sends the files.", "valley-laboratory"),
        ["heldId"] = ("A held result's id, as answered.", "h_0c5t9x2m7h1ka"),
        ["figure"] = ("A figure's id.", "conception-risk"),
        ["slug"] = ("The last part of a problem's `type`.", "invalid-request"),
    };

    public static IEnumerable<OpenApiParameter> Of(string path) => Braces().Matches(path).Select(match => match.Groups[1].Value).Select(name => new OpenApiParameter
    {
        Name = name,
        In = ParameterLocation.Path,
        Required = true,
        Description = Known[name].Description,
        Schema = new OpenApiSchema { Type = JsonSchemaType.String },
        Example = JsonValue.Create(Known[name].Example),
    });

    [GeneratedRegex(@"\{(\w+)\}")]
    private static partial Regex Braces();
}
