using System.Text.Json.Nodes;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.OpenApi;
using ReproLink.Api.Access;
using ReproLink.Api.Exchange;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Api.Transfer;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace ReproLink.Api.OpenApi;

/// <summary>Writes into an operation what its endpoint says of itself: parameters, bodies, answers, refusals, key.</summary>
internal sealed class OperationDetails : IOperationFilter
{
    public void Apply(OpenApiOperation operation, OperationFilterContext context)
    {
        var metadata = context.ApiDescription.ActionDescriptor.EndpointMetadata;
        var needs = metadata.OfType<Needs>().FirstOrDefault();
        operation.Parameters = [.. RouteParameters.Of(context.ApiDescription.RelativePath!), .. metadata.OfType<ParameterDoc>().Select(doc => Parameter(doc, operation.OperationId!))];
        operation.RequestBody = Body([.. metadata.OfType<BodyDoc>()], context);
        operation.Responses = Responses(metadata, needs, context);
        if (metadata.OfType<CallbackDoc>().FirstOrDefault() is { } callback)
        {
            operation.Callbacks = new Dictionary<string, IOpenApiCallback> { [callback.Name] = Callback(callback, context) };
        }

        if (metadata.OfType<Tagged>().Any())
        {
            operation.Parameters.Add(Parameter(new ParameterDoc("If-None-Match", "The `ETag` of an earlier answer: unchanged, it is not sent again.", "W/\"9f2c\"", InHeader: true), operation.OperationId!));
            operation.Responses.Add("304", new OpenApiResponse { Description = "Nothing changed.", Content = new Dictionary<string, OpenApiMediaType>() });
        }

        if (needs is not null || metadata.OfType<TakesKey>().Any())
        {
            operation.Security = [new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(OpenApiSetup.Scheme, context.Document)] = [] }];
        }
        else
        {
            // Said, not left open: no key is needed here.
            operation.Security = [];
        }
    }

    private static OpenApiParameter Parameter(ParameterDoc doc, string operation) => new()
    {
        Name = doc.Name,
        In = doc.InHeader ? ParameterLocation.Header : ParameterLocation.Query,
        Description = doc.Description,
        Schema = new OpenApiSchema
        {
            Type = doc.Type == "integer" ? JsonSchemaType.Integer : JsonSchemaType.String,
            Format = doc.Format,
            // A list of words becomes a type in a typed client; without a name of its own it would be `State2`.
            Title = doc.Words is null ? null : Pascal(operation) + Pascal(doc.Name),
            Enum = doc.Words is { } words ? [.. words.Select(w => (JsonNode)JsonValue.Create(w))] : null,
        },
        Example = doc.Type == "integer" ? JsonNode.Parse(doc.Example) : JsonValue.Create(doc.Example),
    };

    private static OpenApiRequestBody? Body(IReadOnlyList<BodyDoc> bodies, OperationFilterContext context) => bodies.Count == 0 ? null : new()
    {
        Required = true,
        Description = bodies[0].Description,
        Content = bodies.ToDictionary(b => b.MediaType, b => Media(b.Type, b.MediaType, b.Example, context)),
    };

    private static OpenApiResponses Responses(IList<object> metadata, Needs? needs, OperationFilterContext context)
    {
        var responses = new OpenApiResponses();
        foreach (var answers in metadata.OfType<AnswerDoc>().GroupBy(a => a.Status))
        {
            responses.Add(Code(answers.Key), new OpenApiResponse
            {
                Description = answers.First().Description,
                Content = answers.Where(a => a.MediaType.Length > 0).ToDictionary(a => a.MediaType, a => Media(a.Type ?? typeof(string), a.MediaType, a.Example, context)),
            });
        }

        var conflicts = Conflicts(metadata);
        int[] conflict = conflicts.Length == 0 ? [] : [409];
        int[] access = needs is null ? [401] : [401, 403, 404];
        int[] limits = metadata.OfType<DisableRateLimitingAttribute>().Any() ? [] : [429];
        foreach (var status in metadata.OfType<RefusalDoc>().Select(r => r.Status).Concat(conflict).Concat(access).Concat(limits).Append(500).Distinct().Order())
        {
            responses.Add(Code(status), Refusal(status, status == 409 ? conflicts : [.. ProblemTypes.All.Where(t => t.Status == status)], context, metadata.OfType<StandardForm>().Any()));
        }

        return responses;
    }

    private static ProblemType[] Conflicts(IList<object> metadata)
    {
        var own = metadata.OfType<ConflictDoc>().SelectMany(c => c.Types);
        return metadata.Contains(IdempotencyHeader.Doc) ? [.. own, ProblemTypes.IdempotencyKeyReused] : [.. own];
    }

    private static OpenApiResponse Refusal(int status, ProblemType[] types, OperationFilterContext context, bool standard)
    {
        var type = status != 409 && ProblemTypes.OfStatus(status) is { Slug: not "request-refused" } known ? known : types[0];
        if (status == 400)
        {
            type = ProblemTypes.InvalidRequest;
        }

        var example = new JsonObject { ["type"] = type.Uri, ["title"] = type.Title, ["status"] = type.Status, ["detail"] = type.Help };
        if (standard)
        {
            example.Add("severity", "Error");
            example = new JsonObject { ["errors"] = new JsonArray(example) };
        }

        return new OpenApiResponse
        {
            Description = string.Join("; ", types.Where(_ => status is not (400 or 404)).Select(t => t.Title).DefaultIfEmpty(Meaning(status))) + ".",
            Content = new Dictionary<string, OpenApiMediaType>
            {
                [standard ? "application/json" : Problem.MediaType] = new OpenApiMediaType
                {
                    Schema = context.SchemaGenerator.GenerateSchema(standard ? typeof(ErrorsAnswer) : typeof(ProblemBody), context.SchemaRepository),
                    Example = example,
                },
            },
        };
    }

    private static OpenApiCallback Callback(CallbackDoc doc, OperationFilterContext context)
    {
        var callback = new OpenApiCallback();
        callback.AddPathItem(RuntimeExpression.Build(doc.Address), new OpenApiPathItem
        {
            Operations = new Dictionary<HttpMethod, OpenApiOperation>
            {
                [HttpMethod.Post] = new()
                {
                    Summary = "A message to the webhook",
                    Description = doc.Description,
                    RequestBody = Body([new BodyDoc(doc.Type, "application/json", "The message.", doc.Example)], context),
                    // The signature in the message stands for a key.
                    Security = [],
                    Responses = new OpenApiResponses
                    {
                        ["2XX"] = new OpenApiResponse { Description = "The receiver has it." },
                        ["410"] = new OpenApiResponse { Description = "The receiver wants no more: the webhook stops." },
                    },
                },
            },
        });
        return callback;
    }

    private static string Meaning(int status) => status == 400
        ? "Something in the request is not allowed: each wrong field is named, with what is allowed"
        : "There is nothing at this address; a location the key may not see is answered like one that is not there";

    private static OpenApiMediaType Media(Type type, string mediaType, string? example, OperationFilterContext context) => new()
    {
        Schema = context.SchemaGenerator.GenerateSchema(type, context.SchemaRepository),
        Example = example is null ? null : mediaType.EndsWith("json", StringComparison.Ordinal) ? JsonNode.Parse(example) : JsonValue.Create(example),
    };

    private static string Pascal(string name) => char.ToUpperInvariant(name[0]) + name[1..];

    private static string Code(int status) => status.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
