using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Clock;

/// <summary>Where the service's clock stands.</summary>
public sealed record ClockSetting
{
    /// <summary>Now.</summary>
    public required Instant Now { get; init; }
}

/// <summary>Moves the clock in trials; elsewhere there is no such address.</summary>
internal static class ClockEndpoints
{
    private const string Example = """{"now":"2026-10-05T12:00:00Z"}""";

    public static void MapClock(this IEndpointRouteBuilder app) =>
        app.MapPut("/testing/clock", Put)
            .Describe("Trials", "putClock", "Move the clock", """
                In the `Testing` environment and in `demo` only; elsewhere 404. The clock then stands still until it is moved again.
                It is never set backwards; only while no location is on record may a clock that was not set yet start at any instant.
                """)
            .WithMetadata(new TakesKey())
            .Reads(typeof(ClockSetting), "The instant.", Example)
            .AnswersJson(200, "It was moved.", typeof(ClockSetting), Example)
            .Conflicts(ProblemTypes.ClockBackwards)
            .Refuses(400, 401, 403, 404, 413, 415);

    private static async Task<IResult> Put(HttpContext context, HerdClock clock, Store store)
    {
        if (!clock.MaySet)
        {
            return Problem.Of(ProblemTypes.NotFound, $"There is nothing at {context.Request.Path}.");
        }

        if (AccessProblem(context) is { } refused)
        {
            return refused;
        }

        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (refusal is not null)
        {
            return refusal;
        }

        var problems = new FieldProblems();
        var reader = new ObjectReader(body!.Root, problems);
        var now = reader.Instant("now", required: true);
        reader.Done();
        if (problems.Any || now is not { } instant)
        {
            return Problem.OfBody(problems.List);
        }

        return clock.TryMove(instant, mayStartAnywhere: store.Herds.All().Count == 0)
            ? Results.Ok(new ClockSetting { Now = instant })
            : Backwards(reader, clock);
    }

    private static Problem? AccessProblem(HttpContext context)
    {
        if (context.Features.Get<Caller>() is not { } caller)
        {
            return Problem.Of(ProblemTypes.KeyRequired, "This address needs a key: send `Authorization: Bearer KEY`.");
        }

        return caller.Can(Permissions.Manage)
            ? null
            : Problem.Of(ProblemTypes.NotPermitted, $"The key '{caller.Name}' may not move the clock; roles that may: {Caller.RolesThatCan(Permissions.Manage)}.");
    }

    private static Problem Backwards(ObjectReader reader, HerdClock clock)
    {
        var standing = clock.GetCurrentInstant();
        reader.Refuse("now", ProblemTypes.ClockBackwards, $"{standing} or later");
        var field = reader.Problems.List[^1];
        return Problem.Of(ProblemTypes.ClockBackwards, field with { Field = "/" + field.Field });
    }
}
