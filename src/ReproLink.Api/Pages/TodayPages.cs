using NodaTime;
using ReproLink.Api.Work;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;
using ReproLink.Web.Pages;
using ReproLink.Web.Work;

namespace ReproLink.Api.Pages;

/// <summary>One day's work, to look at and to tick.</summary>
internal static class TodayPages
{
    public static void MapTodayPage(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/today", Get);
        herd.MapPost("/today/record", TickPages.Record);
        herd.MapPost("/today/undo", TickPages.Undo);
    }

    private static IResult Get(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock, Notices.Of(context.Request.Query["notice"]));
        return request is null
            ? instead!
            : Page(context, request, PageQuery.Day(context, "on", request.View.AsOf), PageQuery.Pen(context), AlarmOf(context, request.View), null);
    }

    public static IResult Page(HttpContext context, PageRequest request, Day on, string? pen, TickAlarm? alarm, TickProblem? problem) =>
        PageResults.Page<TodayPage>(context, new
        {
            Shown = request.Frame,
            Schedule = WorkEndpoints.Schedule(request.View, new WorkQuery(on, on) { Pen = pen }),
            Day = new WorkDay(on, pen, Guid.NewGuid().ToString("N")),
            Pens = PageQuery.Pens(request.View),
            Alarm = alarm,
            Problem = problem,
        }, problem is null ? 200 : 422);

    public static string Address(PageRequest request, string on, string? pen) =>
        Web.Words.SayWork.Address($"{request.Frame.Path}/today", ("on", on), ("pen", pen));

    // Said again from what is on record: an address alone never says that something was recorded.
    private static TickAlarm? AlarmOf(HttpContext context, HerdView view)
    {
        if (!FactId.TryParse(context.Request.Query["unreleased"].ToString(), out var id)
            || PageQuery.Text(context, "animal") is not { } animal || view.Find(animal) is not { } state
            || state.History.Facts.FirstOrDefault(f => f.Id == id) is not { } fact
            || TickPages.StepOf(fact) is not { } step)
        {
            return null;
        }

        var clause = Enum.TryParse<GateClause>(context.Request.Query["clause"], out var said) && Enum.IsDefined(said) ? said : (GateClause?)null;
        return new TickAlarm(animal, step, clause, id);
    }
}
