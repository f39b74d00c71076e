using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Api.Transfer;
using ReproLink.Records;

namespace ReproLink.Api.Changes;

/// <summary>The feed that other programs follow.</summary>
internal static class ChangeEndpoints
{
    private const int UsualPage = 100;
    private const int MostChangesAPage = 1000;

    private const string Example = """
        {"changes":[{"cursor":"p1f","kind":"fact","at":"2026-10-05T12:00:00Z","animal":"1042",
           "fact":{"factId":"f_0c5t9x2m7h1ka","source":"herd-app","sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-10","recordedAt":"2026-10-05T12:00:00Z"}}],
         "animals":[{"animal":"1042","status":"awaiting-test","results":[],"plan":[]}],
         "next":"p1f","cautions":["Prostaglandin (pgf) ends a pregnancy. Prescription only, on a veterinarian's order."]}
        """;

    public static void MapChanges(this IEndpointRouteBuilder herd) => herd.MapGet("/changes", Get)
        .WithMetadata(new Needs(Permissions.Read))
        .Tags()
        .Describe("Changes", "listChanges", "What changed", """
            Every fact, withdrawal, held result, decision about one, programme and approval in the order in which it was stored, and every animal they are
            about as she is now. Whoever follows `next` ends with what the service has: nothing is ever stored before a cursor already given out. What
            changes by itself as days pass is not in it.
            """)
        .Takes(new ParameterDoc("after", "`next` of the page before, or the `cursor` of a change; absent = from the start.", ""))
        .Takes(new ParameterDoc("limit", "Most changes of a page, 1 to 1000; absent = 100.", "100", "integer"))
        .AnswersJson(200, "A page of changes.", typeof(ChangePage), Example)
        .Refuses(400);

    private static IResult Get(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        var after = query.Text("after");
        var limit = query.Integer("limit", 1, MostChangesAPage, UsualPage);
        if (after is not null && !Cursor.IsValid(after))
        {
            query.Refuse("after", after, "`next` of an earlier page");
        }

        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        // The changes first: the animals are then never older than what is told of them.
        var request = context.Herd();
        var page = store.Changes.DetailsAfter(request.Herd, after, limit);
        return Results.Ok(ChangeMapping.Answer(page, store.Views.Current(request.Herd, request.Now)));
    }
}
