using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Rounds;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;
using ReproLink.Web.Pages;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages.Rounds;

/// <summary>The chute, tube by tube, with plain forms; the script does the same through <see cref="RoundApi"/>.</summary>
internal static class ChutePages
{
    private static readonly string[] States = ["planned", "drawn", "short", "broken"];

    public static void MapChute(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/rounds/{round}/chute", Get);
        herd.MapForm("/rounds/{round}/mark", Mark);
        herd.MapForm("/rounds/{round}/add", Add);
    }

    private static IResult Get(HttpContext context, FormDoor door, Store store, string round)
    {
        var (request, instead) = door.Look(context);
        if (request is null)
        {
            return instead!;
        }

        if (RoundEndpoints.Find(store, request.Herd, round) is not { } found)
        {
            return RoundPages.NoRound(round);
        }

        var query = context.Request.Query;
        var (tube, wrong) = query["find"].ToString().Trim() is { Length: > 0 } asked ? new RoundFinder(store, request.View, found).Find(asked) : (null, null);
        var shown = new Shown
        {
            Current = tube ?? Named(found, query["tube"].ToString()),
            Last = Named(found, query["last"].ToString()),
            By = query["by"].ToString() is { Length: > 0 and <= 100 } by ? by : null,
            Problem = wrong,
            Find = wrong is null ? null : query["find"].ToString(),
        };
        return Page(context, store, request, found, shown);
    }

    private static async Task<IResult> Mark(HttpContext context, FormDoor door, Store store, string round)
    {
        var (form, instead) = await door.Read(context);
        if (form is null)
        {
            return instead!;
        }

        var (word, tube) = (form.Text("mark") ?? "", form.Text("tube") ?? "");
        var redraw = word == "redraw";
        var now = form.Request.Now.InZone(form.Request.Herd.Zone);
        using var body = redraw ? PageForm.Object(json => json.WriteString("redraws", tube)) : PageForm.Object(json =>
        {
            var settled = States.Contains(word);
            json.WriteString("state", settled ? word : "not-drawn");
            if (!settled)
            {
                json.WriteString("reason", word);
            }

            json.WriteString("date", Day.From(now.Date).ToString());
            json.WriteString("time", now.ToString("HH':'mm", null));
            json.WriteString("by", form.Text("who") ?? form.Request.Caller.Name);
            json.WriteString("was", form.Text("was") ?? "planned");
        });
        // The minute is no part of what was asked: the same press sent twice is the same.
        var once = form.Once(context, System.Text.Encoding.UTF8.GetBytes($"{tube} {word}"));
        return await Write(context, store, form, round, (desk, reader) => redraw ? desk.Add(round, reader, once) : desk.Mark(round, tube, reader, once), body);
    }

    private static async Task<IResult> Add(HttpContext context, FormDoor door, Store store, string round)
    {
        var (form, instead) = await door.Read(context);
        if (form is null)
        {
            return instead!;
        }

        using var body = form.Object("animal");
        return await Write(context, store, form, round, (desk, reader) => desk.Add(round, reader, form.Once(context, body)), body);
    }

    private static async Task<IResult> Write(
        HttpContext context, Store store, PageForm form, string round, Func<RoundDesk, ObjectReader, Task<DeskAnswer>> write, ObjectBody body)
    {
        var request = form.Request;
        if (!request.Caller.Can(Permissions.PostFacts))
        {
            return PageResults.NotAllowed(Say.MayNotRecord);
        }

        if (RoundEndpoints.Find(store, request.Herd, round) is not { } before)
        {
            return RoundPages.NoRound(round);
        }

        var answer = form.Again is null ? await write(new RoundDesk(store, request.Herd), new ObjectReader(body.Root, new FieldProblems())) : null;
        var found = RoundEndpoints.Find(store, request.Herd, round) ?? before;
        var asked = Named(found, form.Text("tube"));
        if (answer is not { IsDone: true })
        {
            var problem = answer is null ? form.Again : string.Join(' ', PageProblems.Fields(PageProblems.Of(answer)).Values.DefaultIfEmpty(PageProblems.Of(answer).Detail));
            var shown = new Shown { Current = asked ?? Next(found, null), Problem = problem, By = form.Text("who"), Added = form.Text("animal") };
            return Page(context, store, request, found, shown, answer?.Stored.Status is 409 ? 409 : 422);
        }

        var marked = PageAnswers.Read<TubeMarkAnswer>(answer).Tube.Tube;
        var next = form.Text("mark") is "planned" or "redraw" || asked is null ? Named(found, marked) : Next(found, asked);
        var by = form.Text("who") is { } who ? $"&by={Uri.EscapeDataString(who)}" : "";
        return Results.Redirect($"{request.Frame.Path}/rounds/R{found.Number}/chute?{(next is null ? "" : $"tube={next.Name}&")}last={marked}{by}");
    }

    private static Tube? Named(Round round, string? name) => TubeNames.Read(name) is var (of, number) && of == round.Number ? round.Find(number) : null;

    /// <summary>The next to draw after a tube, round about; none = the tube after it.</summary>
    private static Tube? Next(Round round, Tube? after)
    {
        var from = after?.Number ?? 0;
        return round.Tubes.Skip(from).Concat(round.Tubes.Take(from)).FirstOrDefault(t => t.Standing.State == TubeState.Planned);
    }

    private static IResult Page(HttpContext context, Store store, PageRequest request, Round round, Shown shown, int status = 200) =>
        PageResults.Page<ChutePage>(context, new
        {
            Shown = request.Frame,
            Round = round,
            Current = shown.Current ?? Next(round, null) ?? (shown.Last is null ? round.Find(1) : null),
            shown.Last,
            Warnings = shown.Last is { } last ? RoundReplies.Warnings(round, last).ToList() : [],
            shown.Problem,
            shown.Find,
            shown.Added,
            shown.By,
            Identifiers = new RoundFinder(store, request.View, round).Identifiers(),
        }, status);

    private sealed record Shown
    {
        public Tube? Current { get; init; }

        public Tube? Last { get; init; }

        public string? Problem { get; init; }

        public string? Find { get; init; }

        public string? Added { get; init; }

        public string? By { get; init; }
    }
}
