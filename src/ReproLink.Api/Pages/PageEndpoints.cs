using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;
using ReproLink.Web;
using ReproLink.Web.Pages;

namespace ReproLink.Api.Pages;

/// <summary>The pages a person looks at, over the same calendar as the API.</summary>
internal static class PageEndpoints
{
    private const int LastOfWeek = 6;
    private const int LastOfFourWeeks = 27;

    public static void MapPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("").ExcludeFromDescription();
        pages.MapGet("/", Home);
        pages.MapGet("/assets/{name}", static (HttpContext context, string name) =>
        {
            if (WebAssets.Find(name) is not { } asset)
            {
                return Results.NotFound();
            }

            context.Response.Headers.CacheControl = "max-age=31536000, immutable";
            return Results.Bytes(asset.Content, asset.MediaType);
        });
        pages.MapSignIn();
        var herd = pages.MapGroup("/herds/{scheme}/{id}");
        herd.MapGet("", static (HttpContext context) => Results.Redirect($"{context.Request.Path}/week"));
        herd.MapGet("/week", Week);
        herd.MapGet("/today", Today);
        herd.MapGet("/calendar", Calendar);
        herd.MapGet("/animals/{animal}", Animal);
        herd.MapProgrammePage();
        herd.MapRecording();
    }

    private static IResult Home(HttpContext context, Store store, PageSession session)
    {
        if (session.CallerOf(context) is not { } caller)
        {
            return SignInPages.First(context);
        }

        var herds = store.Herds.All().Where(h => caller.Sees(h.Location)).Select(h => (h.Name, PageRequest.PathOf(h.Location))).ToList();
        return herds.Count == 1
            ? Results.Redirect($"{herds[0].Item2}/week")
            : PageResults.Page<HomePage>(context, new { Herds = herds });
    }

    private static IResult Week(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var view = request.View;
        var from = PageRequest.DayOf(context, "from", view.AsOf);
        return PageResults.Page<WeekPage>(context, new
        {
            Shown = request.Frame,
            List = BleedLists.Make(view.Animals, view.Rules, from, from + LastOfWeek, view.AsOf),
        });
    }

    private static IResult Today(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock, Notices.Of(context.Request.Query["notice"]));
        if (request is null)
        {
            return instead!;
        }

        var on = PageRequest.DayOf(context, "on", request.View.AsOf);
        return PageResults.Page<TodayPage>(context, new { Shown = request.Frame, Schedule = Work(request.View, on, on), On = on });
    }

    private static IResult Calendar(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var from = PageRequest.DayOf(context, "from", request.View.AsOf);
        return PageResults.Page<CalendarPage>(context, new { Shown = request.Frame, Schedule = Work(request.View, from, from + LastOfFourWeeks) });
    }

    private static IResult Animal(HttpContext context, Store store, PageSession session, IClock clock, string animal)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var view = request.View;
        if (view.Find(animal) is not { Exists: true } state)
        {
            return PageResults.NotThere("There is no such animal", $"The herd has no animal '{animal}'.");
        }

        var trace = new FoldTrace();
        HistoryFold.Fold(state.History, view.Rules, view.AsOf, view.KnownAt, trace);
        return PageResults.Page<AnimalPage>(context, new
        {
            Shown = request.Frame,
            State = state,
            Answer = TestWindows.Answer(state, view.Rules, view.AsOf),
            Plans = Planner.Of(state, view.Rules, view.AsOf, view.KnownAt),
            Trace = trace,
            Clause = ClauseOf(state, view),
            Dates = PregnancyDates.Of(state, view.Rules),
        });
    }

    // The gate of rule S4, then the approval of the version that governs her (S8).
    private static GateClause? ClauseOf(AnimalState state, HerdView view) =>
        Gate.Closed(state) ?? (view.Rules.On(state.GoverningDay(view.AsOf)).IsApprovedOn(view.AsOf) ? null : GateClause.AwaitingApproval);

    private static WorkSchedule Work(HerdView view, Day from, Day to) =>
        WorkCalendars.Make(view.Animals, view.Rules, new WorkQuery(from, to), view.AsOf, view.KnownAt);
}
