using Microsoft.AspNetCore.Mvc;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Pages;

/// <summary>Ticking work off: each tick is a treatment fact, as if it had been posted.</summary>
internal static class RecordingPages
{
    public static void MapRecording(this IEndpointRouteBuilder herd) => herd.MapPost("/today/record", Record);

    private static async Task<IResult> Record(
        HttpContext context, Store store, PageSession session, IClock clock,
        [FromForm] string animal, [FromForm] string agent, [FromForm] string date, [FromForm] string done)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        if (!request.Caller.Can(Permissions.PostFacts))
        {
            return PageResults.NotThere("Not allowed", "Your key may look, not record.");
        }

        if (!Reading.Dates.TryDay(date, out var day) || day > request.View.AsOf || !FactVocabulary.Agents.TryRead(agent, out var what)
            || request.View.Find(animal) is not { Exists: true })
        {
            return PageResults.NotThere("This could not be recorded", "The day, the animal or the agent is not one of this page: go back and try again.");
        }

        // The same tick twice is one fact; ticking otherwise replaces it.
        var treatment = new Treatment(day, what, done == "no") { Source = $"page {request.Caller.Name}", SourceId = $"{animal} {day} {agent}" };
        await store.Facts.Append(request.View.Herd, [new FactDraft(animal, treatment)], request.Now);
        return Results.Redirect($"{request.Frame.Path}/today?on={day}&notice=recorded");
    }
}
