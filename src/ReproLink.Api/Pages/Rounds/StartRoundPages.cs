using ReproLink.Api.Access;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Rounds;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;
using ReproLink.Web.Forms;
using ReproLink.Web.Pages;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages.Rounds;

/// <summary>Freezing a day's list, or the animals chosen.</summary>
internal static class StartRoundPages
{
    private static readonly string[] Kept = ["name", "specimen"];
    private static readonly char[] Between = [',', ';', '\n', '\r', '\t'];

    public static void MapStartRound(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/rounds/start", Get);
        herd.MapForm("/rounds/start", Post);
    }

    private static IResult Get(HttpContext context, FormDoor door, Store store)
    {
        var (request, instead) = door.Look(context);
        return request is null ? instead!
            : request.Caller.Can(Permissions.PostFacts) ? Page(context, store, request, PageRequest.DayOf(context, "date", request.View.AsOf), null, FormState.Empty)
            : PageResults.NotAllowed(Say.MayNotRecord);
    }

    private static async Task<IResult> Post(HttpContext context, FormDoor door, Store store)
    {
        var (form, instead) = await door.Read(context);
        if (form is null)
        {
            return instead!;
        }

        var request = form.Request;
        if (!request.Caller.Can(Permissions.PostFacts))
        {
            return PageResults.NotAllowed(Say.MayNotRecord);
        }

        if (!Reading.Dates.TryDay(form.Text("date") ?? "", out var date))
        {
            return Page(context, store, request, request.View.AsOf, form, form.Shown(Say.NoDay), 422);
        }

        if (form.Again is not null)
        {
            return Page(context, store, request, date, form, form.Shown(form.Again), 422);
        }

        var chosen = form.Text("chosen") is null ? null : Chosen(form);
        if (chosen is { Count: 0 })
        {
            return Page(context, store, request, date, form, form.Shown(Say.ChooseAnimals), 422);
        }

        // All of the list and nobody else is the list itself.
        var whole = chosen is null || chosen.ToHashSet(StringComparer.Ordinal).SetEquals(Offered(store, request, date).Where(o => o.Waits is null).Select(o => o.Plan.Animal));
        using var body = PageForm.Object(json =>
        {
            json.WriteString("date", date.ToString());
            foreach (var name in Kept)
            {
                if (form.Text(name) is { } text)
                {
                    json.WriteString(name, text);
                }
            }

            if (!whole)
            {
                json.WriteStartArray("animals");
                chosen!.ForEach(json.WriteStringValue);
                json.WriteEndArray();
            }
        });
        var answer = await new RoundDesk(store, request.Herd).Freeze(new ObjectReader(body.Root, new FieldProblems()), form.Once(context, body));
        return answer.IsDone
            ? Results.Redirect($"{request.Frame.Path}/rounds/{PageAnswers.Read<RoundDetail>(answer).Round}?notice=started")
            : Page(context, store, request, date, form, form.Shown(PageProblems.Of(answer)), 422);
    }

    private static List<string> Chosen(PageForm form) =>
        [.. form.All("animal").Concat((form.Raw("more") ?? "").Split(Between, StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)).Distinct(StringComparer.Ordinal)];

    // The day's list, and of each in which round of the day she waits already.
    private static List<(TubePlan Plan, string? Waits)> Offered(Store store, PageRequest request, Day date)
    {
        var plan = RoundLists.OfDay(new AskedRound(date, null, null, ""), request.View);
        return store.Rounds.Look(request.View.Herd, tubes => plan.Tubes
            .Select(t => (t, tubes.Of(t.Animal, date).FirstOrDefault(o => o.Standing.HasBlood || o.Standing.State == TubeState.Planned)?.Name))
            .ToList());
    }

    private static IResult Page(HttpContext context, Store store, PageRequest request, Day date, PageForm? sent, FormState form, int status = 200) =>
        PageResults.Page<StartRoundPage>(context, new
        {
            Shown = request.Frame,
            Date = date,
            Offered = Offered(store, request, date),
            Ticked = sent?.Text("chosen") is null ? null : (IReadOnlyCollection<string>)sent.All("animal"),
            Form = form,
        }, status);
}
