using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.HeldResults;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Records;
using ReproLink.Web.Forms;
using ReproLink.Web.Results;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages.IncomingResults;

/// <summary>Results that wait for a person, beside the animals they may be of.</summary>
internal static class HeldPages
{
    private const int HeldAPage = 50;
    private const int SettledShown = 20;

    public static void MapHeldPages(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/results/held", Get);
        herd.MapForm("/results/held/{held}/assign", (HttpContext context, FormDoor door, Store store, string held) =>
            Decide(context, door, store, held, ["animal", "tube", "sampled", "outcome"], (desk, reader, once) => desk.Assign(held, reader, once)));
        herd.MapForm("/results/held/{held}/dismiss", (HttpContext context, FormDoor door, Store store, string held) =>
            Decide(context, door, store, held, ["reason"], (desk, reader, once) => desk.Dismiss(held, reader, once)));
        herd.MapForm("/results/held/{held}/reopen", (HttpContext context, FormDoor door, Store store, string held) =>
            Decide(context, door, store, held, ["reason"], (desk, reader, once) => desk.Reopen(held, reader, once)));
    }

    private static IResult Get(HttpContext context, FormDoor door, Store store)
    {
        var (request, instead) = door.Look(context);
        return request is null ? instead! : Page(context, store, request, null, FormState.Empty);
    }

    private static async Task<IResult> Decide(
        HttpContext context, FormDoor door, Store store, string held, string[] fields, Func<HeldDesk, ObjectReader, IdempotencyRecord?, Task<DeskAnswer>> decide)
    {
        var (form, instead) = await door.Read(context);
        if (form is null)
        {
            return instead!;
        }

        var request = form.Request;
        if (!request.Caller.Can(Permissions.Confirm))
        {
            return PageResults.NotAllowed(Say.MayNotDecide);
        }

        if (form.Again is not null)
        {
            return Page(context, store, request, held, form.Shown(form.Again), 422);
        }

        using var body = form.Object(fields);
        var answer = await decide(new HeldDesk(store, request.Herd), new ObjectReader(body.Root, new FieldProblems()), form.Once(context, body));
        return answer.IsDone
            ? Results.Redirect($"{request.Frame.Path}/results/held?done={PageAnswers.Read<HeldDecisionAnswer>(answer).HeldId}")
            : Page(context, store, request, held, form.Shown(PageProblems.Of(answer)), 422);
    }

    private static IResult Page(HttpContext context, Store store, PageRequest request, string? at, FormState form, int status = 200)
    {
        var herd = request.View.Herd;
        var after = context.Request.Query["after"].ToString();
        var open = store.Held.List(herd, open: true, Cursor.IsValid(after) ? after : null, HeldAPage);
        var settled = store.Held.List(herd, open: false, null, SettledShown).Items;
        var done = context.Request.Query["done"].ToString() is { Length: > 0 } id ? store.Held.Find(herd, id) : null;
        var shown = store.Rounds.Look(herd, tubes =>
        {
            var candidates = new HeldCandidates(request.View, tubes);
            return open.Items.Concat(settled).Select(h => Shown(h, h.End is null ? candidates.Of(h, HeldReading.Again(h, request.Herd)) : [], request)).ToList();
        });
        return PageResults.Page<Web.Pages.HeldPage>(context, new
        {
            Shown = request.Frame,
            Open = (IReadOnlyList<HeldShown>)shown[..open.Items.Count],
            Settled = (IReadOnlyList<HeldShown>)shown[open.Items.Count..],
            Animals = (IReadOnlyDictionary<string, string>)settled
                .Select(h => (h.HeldId, Animal: h.End?.Fact is { } fact ? store.Facts.Find(herd, fact)?.Animal : null))
                .Where(h => h.Animal is not null)
                .ToDictionary(h => h.HeldId, h => h.Animal!, StringComparer.Ordinal),
            open.Next,
            Done = done?.End is null ? null : done,
            DoneWords = done is null ? null : Words(done, store, request.View),
            At = at,
            // About a result that is settled by now there is no card to say it at.
            Form = form,
        }, status);
    }

    private static string Words(HeldResult done, Store store, HerdView view) => done.End switch
    {
        null => Say.WaitsAgain,
        { Ending: HeldEnding.Dismissed } => Say.SetAside,
        _ => ResultRows.Assigned(done, store, view) is { Animal: { } animal } row ? Say.Assigned(animal, row) : Say.NoAnswer,
    };

    private static HeldShown Shown(HeldResult held, IReadOnlyList<HeldCandidateAnswer> candidates, PageRequest request) => new(
        held,
        HeldReading.Text(held.Draft.Reason),
        Says(held.Draft.Content),
        [.. candidates.Select(c => new HeldCandidate(c.Animal, c.Pen, c.Reasons))],
        Day.From(held.Received.InZone(request.Herd.Zone).Date));

    private static List<(string, string)> Says(string content)
    {
        using var document = JsonDocument.Parse(content);
        return [.. document.RootElement.EnumerateObject().Where(p => p.Name != "source").Select(p => (p.Name, p.Value.ToString()))];
    }
}
