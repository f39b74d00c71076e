using System.Security.Cryptography;
using System.Text;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;
using ReproLink.Web.Words;
using ReproLink.Web.Work;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>
/// Ticking work off, and undoing a wrong tick. A tick is a fact read by the reader of the API: it says what happened and is
/// never refused because the gate is closed. That it was not released is then said loudly (S4, T7 g).
/// </summary>
internal static class TickPages
{
    private static readonly Vocabulary<StepKind> Steps = new(
        [.. new[] { StepKind.Gnrh, StepKind.Pgf, StepKind.InsertIn, StepKind.InsertOut, StepKind.Inseminate }.Select(s => (ProtocolWords.Of(s), s))]);

    public static async Task<IResult> Record(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection form)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        if (!request.Caller.Can(Permissions.PostFacts))
        {
            return PageResults.NotAllowed(Say.MayNotRecord);
        }

        var view = request.View;
        var (animal, done) = (form["animal"].ToString(), form["done"].ToString());
        if (!Reading.Dates.TryDay(form["on"].ToString(), out var on) || on > view.AsOf || !Steps.TryRead(form["step"].ToString(), out var step)
            || done is not ("yes" or "late" or "no") || view.Find(animal) is not { Exists: true } state)
        {
            return PageResults.NotThere(T("common.not-recorded"), T("today.the-day-the-animal-or-the-step"), 422);
        }

        var pen = form["pen"].ToString() is { Length: > 0 } chosen ? chosen : null;
        var fields = Fields(form, step, on, done);
        var problems = new FieldProblems();
        var reader = new FactReader(HerdRequest.Of(request.Caller, view.Herd, request.Now));
        var (draft, _) = reader.Read(FormJson.Item(fields.Append(("sourceId", SourceId(animal, on, step)))), problems);
        if (done == "late" && string.IsNullOrEmpty(form["time"]))
        {
            problems.Add(ProblemTypes.MissingProperty, "time", null, "the time at which it was done", "");
        }

        if (draft is null || problems.Any)
        {
            return TodayPages.Page(context, request, on, pen, null, new TickProblem(animal, step, FormJson.Values(form), FormJson.Problems(problems)));
        }

        return await Keep(store, request, new TickOf(state, step, on, pen, done != "no"), draft, form["once"].ToString());
    }

    private static async Task<IResult> Keep(Store store, PageRequest request, TickOf tick, FactDraft draft, string once)
    {
        var back = TodayPages.Address(request, tick.On.ToString(), tick.Pen);
        if (tick.WasDone && SaidBefore(tick.State, draft.Fact))
        {
            return Results.Redirect($"{back}&notice=recorded-before");
        }

        // What the calendar said before this was recorded: it may have changed since the page was made.
        var closed = tick.WasDone ? NotReleased(request.View, tick) : "";
        var stored = await store.Facts.SubmitOnce(request, draft, once, closed);
        return Results.Redirect(stored.Said.Length > 0
            ? Web.Words.SayWork.Address(back, ("unreleased", stored.Fact), ("clause", stored.Said), ("animal", tick.State.Animal))
            : $"{back}&notice=recorded");
    }

    public static async Task<IResult> Undo(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection form)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        if (!request.Caller.Can(Permissions.PostFacts))
        {
            return PageResults.NotAllowed(Say.MayNotRecord);
        }

        if (!FactId.TryParse(form["fact"].ToString(), out var id) || store.Facts.Find(request.View.Herd, id) is not { } stored || !Web.Work.Ticks.Is(stored.Fact))
        {
            return PageResults.NotThere(T("today.not-undone"), T("today.only-what-was-ticked-on-a-days"), 422);
        }

        // Twice is once: what is withdrawn stays withdrawn.
        await store.Facts.Withdraw(request.View.Herd, id, "ticked by mistake", request.Caller.Name, request.Now);
        return Results.Redirect($"{TodayPages.Address(request, form["on"].ToString(), form["pen"].ToString())}&notice=undone");
    }

    /// <summary>The step a fact does; null = none.</summary>
    public static StepKind? StepOf(Fact fact) => fact switch
    {
        Insemination => StepKind.Inseminate,
        Treatment { Agent: Agent.Gnrh } => StepKind.Gnrh,
        Treatment { Agent: Agent.Pgf } => StepKind.Pgf,
        Treatment { Agent: Agent.InsertIn } => StepKind.InsertIn,
        Treatment => StepKind.InsertOut,
        _ => null,
    };

    private static IEnumerable<(string, string?)> Fields(IFormCollection form, StepKind step, Day on, string done)
    {
        yield return ("animal", form["animal"]);
        yield return ("kind", step == StepKind.Inseminate ? "insemination" : "treatment");
        yield return ("date", done == "late" ? form["date"].ToString() : on.ToString());
        yield return ("time", done == "late" ? form["time"].ToString() : null);
        if (step == StepKind.Inseminate)
        {
            yield return ("sire", form["sire"]);
            yield break;
        }

        yield return ("agent", ProtocolWords.Of(step));
        if (done == "no")
        {
            yield return ("notDone", "yes");
            yield return ("reason", form["reason"]);
        }
    }

    // The same line ticked twice is one fact, and ticked otherwise replaces it. A long name is shortened by its hash.
    private static string SourceId(string animal, Day on, StepKind step)
    {
        var line = $"{animal} {on} {ProtocolWords.Of(step)}";
        return Web.Work.Ticks.Prefix + (line.Length <= 80 ? line : Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(line)))[..40]);
    }

    // Somebody else, or her software, said the same: one dose is one fact.
    private static bool SaidBefore(AnimalState state, Fact fact) => state.History.Facts.Any(f =>
        f.Day == fact.Day && (f.Source != fact.Source || f.SourceId != fact.SourceId)
        && (f, fact) switch
        {
            (Treatment { NotDone: false } said, Treatment now) => said.Agent == now.Agent,
            (Insemination, Insemination) => true,
            _ => false,
        });

    // Why it was not released, as the calendar said before it was recorded; "" = it was.
    private static string NotReleased(HerdView view, TickOf tick)
    {
        if (tick.Step == StepKind.InsertOut)
        {
            return "";
        }

        var line = WorkCalendars.Make([tick.State], view.Rules, new WorkQuery(tick.On, tick.On), view.AsOf, view.KnownAt)
            .Items.FirstOrDefault(i => i.Step == tick.Step && i.Kind == WorkKind.Step);
        return line switch
        {
            { State: StepState.Firm or StepState.Done } => "",
            { Clause: { } clause } => clause.ToString(),
            { State: StepState.Held } => TickAlarm.Held,
            _ when tick.Step is StepKind.Pgf or StepKind.Inseminate => Gate.Closed(tick.State)?.ToString() ?? "",
            _ => "",
        };
    }

    private sealed record TickOf(AnimalState State, StepKind Step, Day On, string? Pen, bool WasDone);
}
