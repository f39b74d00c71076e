using NodaTime;
using ReproLink.Api.Figures;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures;
using ReproLink.Records;
using ReproLink.Web.Pages;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>Is it working? The figures, and the cows behind each.</summary>
internal static class FigurePages
{
    public static void MapFigurePages(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/figures", Get);
        herd.MapGet("/figures/{figure}", Animals);
    }

    private static IResult Get(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var (question, problem) = Asked(context, request.View.AsOf, null);
        (string, string)? typed = problem is null ? null : (context.Request.Query["from"].ToString(), context.Request.Query["to"].ToString());
        return PageResults.Page<FiguresPage>(context, new { Shown = request.Frame, Set = FigureSets.Of(request.View, question), Problem = problem, Typed = typed });
    }

    private static IResult Animals(HttpContext context, Store store, PageSession session, IClock clock, string figure)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        if (FigureBook.Find(figure) is null)
        {
            return PageResults.NotThere(T("figures.there-is-no-such-figure"), T("figures.go-back-to-the-figures-and-choose"));
        }

        var (question, _) = Asked(context, request.View.AsOf, figure);
        var set = FigureSets.Of(request.View, question);
        var line = context.Request.Query["line"].ToString();
        return PageResults.Page<FigureAnimalsPage>(context, new
        {
            Shown = request.Frame,
            Set = set,
            Figure = set[figure],
            Line = set[figure].Line(line) is null ? null : line,
        });
    }

    // A period that cannot be is told, and the usual one shown.
    private static (FigureQuestion Question, string? Problem) Asked(HttpContext context, Day today, string? figure)
    {
        var to = PageRequest.DayOf(context, "to", today);
        var from = PageRequest.DayOf(context, "from", FigureEndpoints.UsualFrom(to));
        return from <= to && to - from <= FigureEndpoints.MostDays
            ? (new FigureQuestion(from, to) { Detail = figure }, null)
            : (new FigureQuestion(FigureEndpoints.UsualFrom(today), today) { Detail = figure },
                T("figures.the-last-day-must-not-be-before"));
    }
}
