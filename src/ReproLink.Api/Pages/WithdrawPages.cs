using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Rounds;
using ReproLink.Calendar.Status;
using ReproLink.Records;
using ReproLink.Web.Pages;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>Withdrawing a fact: what would change is shown first, a reason is asked for.</summary>
internal static class WithdrawPages
{
    public static void MapWithdrawFact(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/animals/{animal}/facts/{fact}/withdraw", Get);
        herd.MapPost("/animals/{animal}/facts/{fact}/withdraw", Post);
    }

    private static IResult Get(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (asked, instead) = Of(context, store, session, clock);
        return asked is null ? instead! : Page(context, asked, null, null);
    }

    private static async Task<IResult> Post(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection form)
    {
        var (asked, instead) = Of(context, store, session, clock);
        if (asked is null)
        {
            return instead!;
        }

        var typed = form["reason"].ToString();
        var reader = new ObjectReader(FormJson.Element([("reason", typed)]), new FieldProblems());
        var reason = reader.Text("reason", TextRule.Words, required: true);
        if (reason is null)
        {
            return Page(context, asked, typed, FormJson.Problems(reader.Problems)["reason"]);
        }

        await store.Facts.Withdraw(asked.Request.View.Herd, asked.Fact.Id, reason, asked.Request.Caller.Name, asked.Request.Now);
        return Results.Redirect($"{asked.Request.Frame.Animal(asked.State.Animal)}?notice=withdrawn");
    }

    private static (Asked? Asked, IResult? Instead) Of(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return (null, instead);
        }

        if (!request.Caller.Can(Permissions.PostFacts))
        {
            return (null, PageResults.NotAllowed(T("refusal.may-not-withdraw")));
        }

        var animal = HerdAccessMiddleware.Part(context, "animal");
        return FactId.TryParse(HerdAccessMiddleware.Part(context, "fact"), out var id)
            && request.View.Find(animal) is { } state && state.History.Facts.FirstOrDefault(f => f.Id == id) is { } fact
                ? (new Asked(request, state, fact), null)
                : (null, Gone(request, animal));
    }

    // Also after a form that was sent twice: it is withdrawn, and that is said.
    private static IResult Gone(PageRequest request, string animal) => request.View.Find(animal) is null
        ? PageResults.NotThere(T("animal.there-is-no-such-fact"), T("animal.it-was-withdrawn-before-or-never"))
        : Results.Redirect($"{request.Frame.Animal(animal)}?notice=withdrawn-before");

    private static IResult Page(HttpContext context, Asked asked, string? reason, string? problem)
    {
        var (view, state) = (asked.Request.View, asked.State);
        var without = state.History with { Facts = [.. state.History.Facts.Where(f => f.Id != asked.Fact.Id)] };
        var after = HistoryFold.Fold(without, view.Rules, view.AsOf, view.KnownAt);
        return PageResults.Page<WithdrawPage>(context, new
        {
            Shown = asked.Request.Frame,
            state.Animal,
            asked.Fact,
            StatusNow = state.Status,
            StatusAfter = after.Status,
            ClauseNow = Gate.Closed(state, view.Rules),
            ClauseAfter = Gate.Closed(after, view.Rules),
            IsOfRound = asked.Fact is Sample sample && Storage.IsOfRound(sample),
            Reason = reason,
            Problem = problem,
        }, problem is null ? 200 : 422);
    }

    private sealed record Asked(PageRequest Request, AnimalState State, Fact Fact);
}
