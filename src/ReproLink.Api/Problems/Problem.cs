using System.Text.Json;
using ReproLink.Api.Composition;
using ReproLink.Records;

namespace ReproLink.Api.Problems;

/// <summary>A refusal on its way out: thrown nowhere, returned as an endpoint's result.</summary>
public sealed class Problem : IResult
{
    public const string MediaType = "application/problem+json";

    private readonly ProblemBody _body;

    private Problem(ProblemBody body) => _body = body;

    public static Problem Of(ProblemType type, string detail) => Of(type, detail, []);

    /// <summary>A problem with one field.</summary>
    public static Problem Of(ProblemType type, FieldProblem field) => Of(type, field.Detail, [field]);

    /// <summary>All that is wrong with a JSON body.</summary>
    public static Problem OfBody(IReadOnlyList<FieldProblem> fields) =>
        Of(ProblemTypes.InvalidRequest, Summary(fields), [.. fields.Select(f => f with { Field = f.Field.Length == 0 ? "" : "/" + f.Field })]);

    /// <summary>All that is wrong with a query.</summary>
    public static Problem OfQuery(IReadOnlyList<FieldProblem> fields) => Of(ProblemTypes.InvalidRequest, Summary(fields), fields);

    public Task ExecuteAsync(HttpContext httpContext) => WriteTo(httpContext);

    /// <summary>What it says, for a page that shows it.</summary>
    public ProblemBody Body => _body;

    /// <summary>The problem in the form in which an answer is kept for an idempotency key.</summary>
    public StoredAnswer Keep() => new(_body.Status, MediaType, JsonSerializer.SerializeToUtf8Bytes(_body, JsonSetup.Options));

    /// <summary>The same problem as the answer of middleware.</summary>
    public async Task WriteTo(HttpContext context)
    {
        context.Response.StatusCode = _body.Status;
        context.Response.Headers.CacheControl = "no-store";
        if (_body.Status == StatusCodes.Status401Unauthorized)
        {
            context.Response.Headers.WWWAuthenticate = "Bearer";
        }

        if (context.Features.Get<ProblemForm>() is { } form)
        {
            await context.Response.WriteAsJsonAsync(form.Write(_body), JsonSetup.Options, form.MediaType, context.RequestAborted);
            return;
        }

        await context.Response.WriteAsJsonAsync(_body, JsonSetup.Options, MediaType, context.RequestAborted);
    }

    /// <summary>The problem of one item of a batch.</summary>
    public static ItemProblem OfItem(FieldProblem problem, int index, int? line) => new()
    {
        Type = problem.Type.Uri,
        Title = problem.Type.Title,
        Detail = line is null ? problem.Detail : $"Line {line}: {problem.Detail}",
        Pointer = problem.Field.Length == 0 ? $"/{index}" : $"/{index}/{problem.Field}",
        Field = problem.Field.Length == 0 ? null : problem.Field,
        Value = problem.Value,
        Allowed = problem.Allowed,
        Line = line,
    };

    private static string Summary(IReadOnlyList<FieldProblem> fields) =>
        fields.Count == 1 ? fields[0].Detail : $"{fields.Count} things are not allowed; the first: {fields[0].Detail}";

    private static Problem Of(ProblemType type, string detail, IReadOnlyList<FieldProblem> fields) => new(new ProblemBody
    {
        Type = type.Uri,
        Title = type.Title,
        Status = type.Status,
        Detail = detail,
        Errors = fields.Count == 0 ? null : [.. fields.Select(Error)],
    });

    private static ProblemError Error(FieldProblem field) => new()
    {
        Field = field.Field,
        Value = field.Value,
        Allowed = field.Allowed,
        Detail = field.Detail,
        Type = field.Type.Uri,
    };
}
