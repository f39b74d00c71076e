using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Work;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;
using ReproLink.Web.Pages;
using ReproLink.Web.Work;

namespace ReproLink.Api.Pages;

/// <summary>The veterinarian's calendar: weeks ahead counted, down to the animals.</summary>
internal static class CalendarPages
{
    private const int UsualWeeks = 6;
    private const int MostWeeks = 13;
    private const int LinesAPage = 200;

    public static void MapCalendarPage(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/calendar", Get);
        herd.MapGet("/calendar/lines", Lines);
        herd.MapCalendarForms();
    }

    private static async Task<IResult> Get(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock, Notices.Of(context.Request.Query["notice"]));
        if (request is null)
        {
            return instead!;
        }

        var since = await store.Visits.Look(request.View.Herd, request.Caller.Name, request.View.KnownAt, request.Now);
        return Page(context, store, request, since, shown => shown);
    }

    /// <summary>The page after a form that was not taken: with what was typed.</summary>
    public static async Task<IResult> Again(HttpContext context, Store store, PageRequest request, Func<VetCalendar, VetCalendar> filled, int status)
    {
        var since = await store.Visits.Look(request.View.Herd, request.Caller.Name, request.View.KnownAt, request.Now);
        return Page(context, store, request, since, filled, status);
    }

    private static IResult Page(
        HttpContext context, Store store, PageRequest request, Instant? since, Func<VetCalendar, VetCalendar> filled, int status = 200)
    {
        var view = request.View;
        var pen = PageQuery.Pen(context);
        var weeks = int.TryParse(context.Request.Query["weeks"], out var asked) ? Math.Clamp(asked, 1, MostWeeks) : UsualWeeks;
        var from = PageQuery.Day(context, "from", view.AsOf);
        var to = WorkGrid.LastDay(from, weeks);
        var schedule = WorkEndpoints.Schedule(view, new WorkQuery(from, to) { Pen = pen });
        return PageResults.Page<CalendarPage>(context, new
        {
            Shown = request.Frame,
            View = filled(new VetCalendar(schedule, new WorkGrid(schedule))
            {
                Pen = pen,
                Pens = PageQuery.Pens(view),
                Weeks = weeks,
                Conflicting = [.. view.Animals.Where(a => a is { Exists: true, Departure: null }
                    && (a.Conflicts.Count > 0 || a.Recheck is { IsDouble: true, NewService: null } || a.History.Held.Count > 0)
                    && (pen is null || a.Card?.Pen == pen))],
                Since = VisitChanges.Of(store, view, since, Day.Max(to, view.AsOf), request.Now),
                Versions = view.Rules.HasSavedProgramme
                    ? [view.Rules.On(view.AsOf), .. view.Rules.Versions.Where(v => v.Programme.InForceFrom > view.AsOf)]
                    : [],
                Links = request.Caller.Can(Permissions.PostFacts) ? [.. store.Feeds.List(view.Herd).Where(l => l.Revoked is null)] : null,
                KnownAt = view.KnownAt,
                Zone = view.Rules.Zone,
            }),
        }, status);
    }

    // From a count to the animals behind it.
    private static IResult Lines(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var from = PageQuery.Day(context, "from", request.View.AsOf);
        var to = PageQuery.Day(context, "to", from);
        var (pen, held) = (PageQuery.Text(context, "pen"), context.Request.Query["state"] == "held");
        var noPen = context.Request.Query["pen"] is [""];
        var column = WorkColumns.All.Where(c => WorkColumns.Word(c) == context.Request.Query["what"]).Select(c => (WorkColumn?)c).FirstOrDefault();
        var schedule = WorkEndpoints.Schedule(request.View, new WorkQuery(from, Day.Max(from, to)) { Pen = pen });
        var items = schedule.Items.Where(i => i.Animal is not null && WorkColumns.Of(i) is { } of && (column is null || of == column)
            && (!noPen || i.Animal.Card?.Pen is null)
            && i.State switch
            {
                StepState.Held or StepState.AwaitingApproval => true,
                StepState.Firm or StepState.Conditional => !held,
                _ => false,
            }).ToList();
        var page = PageQuery.Part(context, items.Count, LinesAPage);
        return PageResults.Page<CalendarLinesPage>(context, new
        {
            Shown = request.Frame,
            From = from,
            To = Day.Max(from, to),
            Column = column,
            Pen = noPen ? "" : pen,
            OnlyHeld = held,
            Items = (IReadOnlyList<WorkItem>)[.. items.Skip((page - 1) * LinesAPage).Take(LinesAPage)],
            Count = items.Count,
            Page = page,
            Size = LinesAPage,
        });
    }
}
