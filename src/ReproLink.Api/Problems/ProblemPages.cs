using System.Net;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Problems;

/// <summary>The documentation of every problem, made from the one list.</summary>
internal static class ProblemPages
{
    public static void MapProblemPages(this IEndpointRouteBuilder app)
    {
        app.MapGet("/problems", () => Results.Content(ListPage(), "text/html; charset=utf-8"))
            .Describe("Problems", "listProblems", "Every kind of problem", "A page that lists the kinds of problem the service answers with.")
            .Answers(200, "The list.", "text/html");
        app.MapGet("/problems/{slug}", Page)
            .Describe("Problems", "getProblem", "One kind of problem", "The page a problem's `type` leads to: what it means and what to do.")
            .Answers(200, "The page.", "text/html")
            .Refuses(404);
    }

    private static IResult Page(string slug) =>
        ProblemTypes.All.FirstOrDefault(t => t.Slug == slug) is { } type
            ? Results.Content(Html(type.Title, $"<h1>{Text(type.Title)}</h1><p>{Text(type.Help)}</p><p>HTTP status {type.Status}</p>"), "text/html; charset=utf-8")
            : Problem.Of(ProblemTypes.NotFound, $"There is no kind of problem called '{slug}'.");

    private static string ListPage() => Html("Problems", "<h1>Problems</h1><ul>"
        + string.Concat(ProblemTypes.All.Select(t => $"<li><a href=\"{t.Uri}\">{Text(t.Title)}</a> ({t.Status}): {Text(t.Help)}</li>")) + "</ul>");

    private static string Html(string title, string body) =>
        $"<!doctype html><html lang=\"en-GB\"><meta charset=\"utf-8\"><title>{Text(title)}</title><body>{body}</body></html>";

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
