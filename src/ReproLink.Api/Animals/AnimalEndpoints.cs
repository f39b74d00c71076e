using ReproLink.Api.Access;
using ReproLink.Api.Intake;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Animals;

/// <summary>One animal.</summary>
internal static class AnimalEndpoints
{
    public static void MapAnimals(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/animals/{animal}/test-window", Window)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe("Animals", "getTestWindow", "Whether she may be bled on a day, and why", """
                Her answer on a day with everything that was weighed, the day it next changes, the prostaglandin gate, her plan and her pregnancy.
                """)
            .TakesDay("on", "The day; absent = the herd's today.", "2026-10-05")
            .TakesDay("asOf", "Later facts do not count; not later than `on`; absent = the earlier of `on` and today.", "2026-10-05")
            .TakesInstant("knownAt", "The moment whose knowledge it rests on; absent = now.")
            .AnswersJson(200, "Her answer.", typeof(TestWindowAnswer), AnimalExamples.Window)
            .Refuses(400, 404);
        herd.MapGet("/animals/{animal}/timeline", Timeline)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe("Animals", "getTimeline", "Her story", "Her facts in order, each change of status, what every result decided and why, her plan and her pregnancy.")
            .TakesDay("asOf", "Later facts do not count; absent = the herd's today, or its day at `knownAt`.", "2026-10-05")
            .TakesInstant("knownAt", "The moment whose knowledge it rests on; absent = now.")
            .AnswersJson(200, "Her story.", typeof(TimelineAnswer), AnimalExamples.Timeline)
            .Refuses(400, 404);
    }

    private static IResult Window(HttpContext context, Store store, string animal)
    {
        var request = context.Herd();
        var query = new QueryReader(context);
        var moment = MomentQuery.Read(query, request);
        var on = query.Day("on") ?? moment.Today;
        var asOf = moment.AsOf ?? Day.Min(on, moment.Today);
        if (asOf > on)
        {
            query.Refuse("asOf", asOf.ToString(), $"not later than 'on', {on}");
        }

        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var view = store.ViewOf(request, asOf, moment.KnownAt);
        return view.Find(animal) is { Exists: true } state
            ? KeptWindows.Answer(view, state, on)
            : NoSuchAnimal(animal);
    }

    private static IResult Timeline(HttpContext context, Store store, string animal)
    {
        var request = context.Herd();
        var query = new QueryReader(context);
        var moment = MomentQuery.Read(query, request);
        var asOf = moment.AsOf ?? moment.Today;
        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var view = store.ViewOf(request, asOf, moment.KnownAt);
        if (view.Find(animal) is not { Exists: true } known)
        {
            return NoSuchAnimal(animal);
        }

        var trace = new FoldTrace();
        var state = HistoryFold.Fold(known.History, view.Rules, asOf, view.KnownAt, trace);
        var received = ReceivedEndpoints.Behind(store, request.Herd, [.. state.History.Facts.Where(f => f is TestResult or Examination).Select(f => f.Id)]);
        return Results.Ok(TimelineMapping.Answer(state, trace, view.Rules, view.KnownAt, received));
    }

    private static Problem NoSuchAnimal(string animal) => Problem.Of(ProblemTypes.AnimalNotFound, $"The herd has no animal '{animal}' on that day.");
}
