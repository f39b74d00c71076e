using ReproLink.Web.Pages;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages;

/// <summary>The page on which somebody says how she reads. It needs nobody signed in: the choice is the browser's.</summary>
internal static class ReaderPages
{
    private const string Path = "/settings";

    public static void MapReader(this IEndpointRouteBuilder pages)
    {
        pages.MapGet(Path, static (HttpContext context) => PageResults.Page<ReadingPage>(context, new { Notice = Notices.Of(context.Request.Query["notice"]) }));
        pages.MapPost(Path, Post).WithMetadata(new ForAnyone());
    }

    private static IResult Post(HttpContext context, IFormCollection form)
    {
        if (form["do"] == "browser")
        {
            ReaderCookie.Delete(context);
            return Results.Redirect($"{Path}?notice=reading-browser");
        }

        var (reader, problems) = ReaderForm.Read(name => form[name]);
        if (problems.Count > 0)
        {
            var sent = ReaderForm.Fields.ToDictionary(f => f.Name, f => form[f.Name].ToString());
            return PageResults.Page<ReadingPage>(context, new { Sent = (IReadOnlyDictionary<string, string>)sent, Problems = problems }, 422);
        }

        ReaderCookie.Append(context, reader);
        return Results.Redirect($"{Path}?notice=reading-saved");
    }
}
