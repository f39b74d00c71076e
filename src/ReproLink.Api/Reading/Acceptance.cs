using Microsoft.Net.Http.Headers;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Reading;

/// <summary>Which of the forms there are a caller wants, by its <c>Accept</c> header.</summary>
internal static class Acceptance
{
    /// <summary>The form wanted most, the first where it is all the same; null when none is accepted.</summary>
    public static string? Of(HttpContext context, params string[] forms)
    {
        if (!MediaTypeHeaderValue.TryParseList(context.Request.Headers.Accept, out var ranges) || ranges.Count == 0)
        {
            return forms[0];
        }

        return forms
            .Select(form => (Form: form, Quality: Quality(form, ranges)))
            .Where(f => f.Quality > 0)
            .OrderByDescending(f => f.Quality)
            .Select(f => f.Form)
            .FirstOrDefault();
    }

    public static Problem Refusal(params string[] forms) =>
        Problem.Of(ProblemTypes.NotAcceptable, $"None of the forms in the Accept header can be had; allowed: {string.Join(", ", forms)}.");

    // The range that says most about a form counts: text/csv before text/* before */*.
    private static double Quality(string form, IList<MediaTypeHeaderValue> ranges)
    {
        var type = new MediaTypeHeaderValue(form);
        return ranges.Where(type.IsSubsetOf).OrderBy(r => r.MatchesAllTypes ? 2 : r.MatchesAllSubTypes ? 1 : 0).Select(r => r.Quality ?? 1).FirstOrDefault();
    }
}
