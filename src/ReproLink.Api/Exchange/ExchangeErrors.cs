using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Exchange;

/// <summary>Problems in the standard's form.</summary>
internal static class ExchangeErrors
{
    public static object Of(ProblemBody problem) => new ErrorsAnswer
    {
        Errors = problem.Errors is { Count: > 0 } fields
            ? [.. fields.Select(field => new ExchangeMessage
            {
                Type = field.Type,
                Severity = "Error",
                Status = problem.Status,
                Title = problem.Title,
                Detail = field.Detail,
                Instance = field.Field.Length == 0 ? null : field.Field,
            })]
            : [new ExchangeMessage { Type = problem.Type, Severity = "Error", Status = problem.Status, Title = problem.Title, Detail = problem.Detail }],
    };

    /// <summary>What is wrong with one item of a batch.</summary>
    public static ExchangeMessage Of(FieldProblem problem) => new()
    {
        Type = problem.Type.Uri,
        Severity = "Error",
        Status = problem.Type.Status,
        Title = problem.Type.Title,
        Detail = problem.Detail,
        Instance = problem.Field.Length == 0 ? null : "/" + problem.Field,
    };
}
