using NodaTime;
using ReproLink.Api.Bleeding;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Testing;
using ReproLink.Records;
using ReproLink.Web.Pages;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>This week: which cows to bleed, and why not the others.</summary>
internal static class WeekPages
{
    private const int LastOfWeek = 6;
    private const int OthersAPage = 200;

    public static void MapWeekPage(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/week", Week);
        herd.MapGet("/week/others", Others);
    }

    private static IResult Week(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var list = ListOf(context, request);
        return PageResults.Page<WeekPage>(context, new
        {
            Shown = request.Frame,
            List = list,
            Pens = PageQuery.Pens(request.View),
            Pen = PageQuery.Pen(context),
            Opened = Reading.Dates.TryDay(context.Request.Query["day"].ToString(), out var day) && list.Days.Any(d => d.Date == day) ? day : (Day?)null,
        });
    }

    private static IResult Others(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var list = ListOf(context, request);
        var (answer, reason) = (context.Request.Query["answer"].ToString(), context.Request.Query["reason"].ToString());
        if (list.NotListed.FirstOrDefault(r => AnswerWords.Of(r.Answer) == answer && r.Reason == reason) is not { } rest)
        {
            return PageResults.NotThere(T("week.nobody-is-counted-there-now"), T("week.the-list-changed-since-its-page"));
        }

        var page = PageQuery.Part(context, rest.Animals.Count, OthersAPage);
        var on = Day.Max(list.From, request.View.AsOf);
        return PageResults.Page<OthersPage>(context, new
        {
            Shown = request.Frame,
            List = list,
            Rest = rest,
            Answers = (IReadOnlyList<WindowAnswer>)[.. rest.Animals.Skip((page - 1) * OthersAPage).Take(OthersAPage)
                .Select(animal => TestWindows.Answer(animal, request.View.Rules, on))],
            On = on,
            Page = page,
            Size = OthersAPage,
            Pen = PageQuery.Pen(context),
        });
    }

    private static BleedList ListOf(HttpContext context, PageRequest request)
    {
        var from = PageQuery.Day(context, "from", request.View.AsOf);
        return BleedListEndpoints.List(request.View, new ListQuestion(from, from + LastOfWeek, request.View.AsOf, PageQuery.Pen(context), true));
    }
}
