using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.HeldResults;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;
using ReproLink.Web.Pages;
using ReproLink.Web.Words;
using ReproLink.Web.Work;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>One animal, now or as she was known on an earlier day; and the way to her from every page.</summary>
internal static class AnimalPages
{
    public static void MapAnimalPages(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/animals/{animal}", Get);
        herd.MapGet("/find", Find);
        herd.MapAddFact();
        herd.MapWithdrawFact();
    }

    private static IResult Get(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock, Notices.Of(context.Request.Query["notice"]));
        if (request is null)
        {
            return instead!;
        }

        var (then, problem) = KnownOn(context, request.View);
        var view = then is { } day
            ? store.Views.At(request.View.Herd, day, request.View.Rules.EndOf(day) - Duration.Epsilon, request.Now)
            : request.View;
        var animal = HerdAccessMiddleware.Part(context, "animal");
        if (view.Find(animal) is not { Exists: true } state)
        {
            return then is null
                ? PageResults.NotThere(T("animal.there-is-no-such-animal"), T("animal.not-in-herd", animal))
                : PageResults.NotThere(T("animal.she-was-not-known-then"), T("animal.not-known-then", Say.LongDay(then.Value), animal));
        }

        return PageResults.Page<AnimalPage>(context, new { Shown = request.Frame, View = Of(store, request, view, state) with { AsKnownOn = then, KnownProblem = problem } });
    }

    private static (Day? Then, string? Problem) KnownOn(HttpContext context, HerdView view)
    {
        if (PageQuery.Text(context, "known") is not { } asked)
        {
            return (null, null);
        }

        return !Reading.Dates.TryDay(asked, out var day) || day > view.AsOf || view.AsOf - day > PageQuery.FarthestDays
            ? (null, T("animal.choose-known", Say.LongDay(view.AsOf)))
            : (day == view.AsOf ? null : day, null);
    }

    private static AnimalShown Of(Store store, PageRequest request, HerdView view, AnimalState state)
    {
        var trace = new FoldTrace();
        HistoryFold.Fold(state.History, view.Rules, view.AsOf, view.KnownAt, trace);
        var answer = TestWindows.Answer(state, view.Rules, view.AsOf);
        var plans = Planner.Of(state, view.Rules, view.AsOf, view.KnownAt);
        var dates = PregnancyDates.Of(state, view.Rules);
        return new AnimalShown(state, answer, plans, trace, new Lactation(state, answer, plans, dates))
        {
            Clause = Gate.Closed(state, view.Rules),
            Dates = dates,
            Held = [.. state.History.Held.Select(h => new HeldNote(h.HeldId, h.Received, HeldReading.Text(h.Reason)))],
            Received = store.Received.Behind(request.View.Herd, [.. state.History.Facts.Where(f => f is TestResult or Examination).Select(f => f.Id)]),
            Zone = view.Rules.Zone,
        };
    }

    // By number or any identifier: one animal is opened, several are offered.
    private static IResult Find(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var asked = context.Request.Query["q"].ToString().Trim();
        var found = asked.Length == 0 ? [] : HerdIndex.Of(request.View).Named(asked);
        return found.Count == 1
            ? Results.Redirect(request.Frame.Animal(found[0].Animal))
            : PageResults.Page<FindPage>(context, new { Shown = request.Frame, Asked = asked, Found = found });
    }
}
