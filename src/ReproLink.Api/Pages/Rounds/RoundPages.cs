using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Rounds;
using ReproLink.Calendar.Dates;
using ReproLink.Records;
using ReproLink.Web.Forms;
using ReproLink.Web.Pages;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages.Rounds;

/// <summary>The rounds, and one of them at the desk: tubes, labels, what leaves.</summary>
internal static class RoundPages
{
    private const int RoundsAPage = 20;

    public static void MapRoundPages(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/rounds", List);
        herd.MapStartRound();
        herd.MapGet("/rounds/{round}", Get);
        herd.MapForm("/rounds/{round}/dispatch", Dispatch);
        herd.MapChute();
        herd.MapRoundPrints();
        herd.MapRoundApi();
    }

    public static IResult NoRound(string round) => PageResults.NotThere(T("round.there-is-no-such-round"), T("round.the-herd-has-no-round", round));

    private static IResult List(HttpContext context, FormDoor door, Store store)
    {
        var (request, instead) = door.Look(context);
        if (request is null)
        {
            return instead!;
        }

        var after = context.Request.Query["after"].ToString();
        var page = store.Rounds.List(request.View.Herd, Cursor.IsValid(after) ? after : null, RoundsAPage);
        var mapping = RoundMapping.Of(request.View);
        return PageResults.Page<RoundsPage>(context, new
        {
            Shown = request.Frame,
            Rounds = page.Items.Select(r => (r, mapping.StateOf(r))).ToList(),
            page.Next,
        });
    }

    private static IResult Get(HttpContext context, FormDoor door, Store store, string round)
    {
        var (request, instead) = door.Look(context, Notices.Of(context.Request.Query["notice"]));
        return request is null ? instead!
            : RoundEndpoints.Find(store, request.Herd, round) is { } found ? Page(context, request, found, new Shown { Report = ReportOf(context, request, found) })
            : NoRound(round);
    }

    private static async Task<IResult> Dispatch(HttpContext context, FormDoor door, Store store, string round)
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

        if (RoundEndpoints.Find(store, request.Herd, round) is not { } found)
        {
            return NoRound(round);
        }

        var (at, wrong) = Left(form);
        if (form.Again is not null || wrong is not null || form.All("tubes").Count == 0)
        {
            var shown = form.Shown(form.Again) with { Problems = wrong ?? (form.All("tubes").Count == 0 ? new Dictionary<string, string> { ["tubes"] = Say.TickTubes } : []) };
            return Page(context, request, found, new Shown { Dispatch = shown }, 422);
        }

        using var body = PageForm.Object(json =>
        {
            json.WriteStartArray("tubes");
            form.All("tubes").Distinct().ToList().ForEach(json.WriteStringValue);
            json.WriteEndArray();
            if (at is { } instant)
            {
                json.WriteString("at", instant.ToString());
            }

            if (form.Text("by") is { } by)
            {
                json.WriteString("by", by);
            }
        });
        var answer = await new RoundDesk(store, request.Herd).Dispatch(round, new ObjectReader(body.Root, new FieldProblems()), form.Once(context, body));
        if (!answer.IsDone)
        {
            var problem = form.Shown(PageProblems.Of(answer));
            var problems = problem.Problems.ToDictionary(p => p.Key == "at" ? "on" : p.Key, p => p.Value, StringComparer.Ordinal);
            return Page(context, request, found, new Shown { Dispatch = problem with { Problems = problems } }, 422);
        }

        return Results.Redirect($"{request.Frame.Path}/rounds/R{found.Number}?sent={PageAnswers.Read<DispatchAnswer>(answer).Dispatch}#dispatch");
    }

    // A day without a time left at noon, or now if that is still ahead; a time without a day was today's.
    private static (Instant? At, Dictionary<string, string>? Wrong) Left(PageForm form)
    {
        var (on, time) = (form.Text("on"), form.Text("time"));
        if (on is null && time is null)
        {
            return (null, null);
        }

        var request = form.Request.Herd;
        if (!Reading.Dates.TryDay(on ?? request.Today.ToString(), out var day))
        {
            return (null, new() { ["on"] = T("round.needed", Reading.Dates.AllowedDay) });
        }

        if (!Reading.Dates.TryTime(time ?? "12:00", out var clock))
        {
            return (null, new() { ["time"] = T("round.needed", Reading.Dates.AllowedTime) });
        }

        var at = day.Date.At(clock).InZoneLeniently(request.Zone).ToInstant();
        return (time is null && day == request.Today ? Instant.Min(at, request.Now) : at, null);
    }

    // Said again whenever the page of that dispatch is opened: when the report is expected, and what is wrong with its way.
    private static string? ReportOf(HttpContext context, PageRequest request, Round round)
    {
        if (!int.TryParse(context.Request.Query["sent"], out var number) || round.Dispatches.All(d => d.Number != number))
        {
            return null;
        }

        var sent = PageAnswers.Read<DispatchAnswer>(new RoundReplies(request.View.Herd, "").Sent(new RoundAnswer(RoundStatus.Done, round, null, number), request.View.Rules));
        var expected = sent.ExpectedReport is { } report ? $" {Say.ReportExpected(Day.From(report.Date), report.Time)}" : "";
        return $"{Say.Sent(sent.Tubes.Count)}{expected}{string.Concat(sent.Warnings.Select(w => " " + w))}";
    }

    public static IResult Page(HttpContext context, PageRequest request, Round round, Shown shown, int status = 200)
    {
        var mapping = RoundMapping.Of(request.View);
        return PageResults.Page<Web.Pages.RoundPage>(context, new
        {
            Shown = request.Frame,
            Round = round,
            State = mapping.StateOf(round),
            Results = round.Tubes.Select(t => (t.Name, Result: mapping.ResultOf(t))).Where(t => t.Result is not null).ToDictionary(t => t.Name, t => t.Result!),
            shown.Labels,
            shown.Dispatch,
            shown.Report,
        }, status);
    }

    internal sealed record Shown
    {
        public FormState Labels { get; init; } = FormState.Empty;

        public FormState Dispatch { get; init; } = FormState.Empty;

        public string? Report { get; init; }
    }
}
