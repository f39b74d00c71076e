using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.ProgrammeChecks;
using ReproLink.Api.Reading;
using ReproLink.Api.Transfer;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;

namespace ReproLink.Api.Programmes;

/// <summary>The herd's written policy and its versions.</summary>
internal static class ProgrammeEndpoints
{
    public static void MapProgrammes(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/programme", Get)
            .WithMetadata(new Needs(Permissions.Read))
            .Tags()
            .Describe("Programme", "getProgramme", "The programme in force", "The version in force on a day, complete. A herd that has saved none has the defaults, and is told so.")
            .TakesDay("on", "The day; absent = the herd's today.", "2026-10-05")
            .AnswersJson(200, "The version in force.", typeof(ProgrammeAnswer), ProgrammeExamples.Answer)
            .Refuses(400);
        herd.MapGet("/programme/versions", Versions)
            .WithMetadata(new Needs(Permissions.Read))
            .Tags()
            .Describe("Programme", "listProgrammeVersions", "Every version", "All versions saved, drafts too, with their approvals.")
            .AnswersJson(200, "The versions.", typeof(ProgrammeVersions), ProgrammeExamples.Versions)
            .Refuses(400);
        herd.MapPut("/programme", Put)
            .WithMetadata(new Needs(Permissions.Manage))
            .Describe("Programme", "putProgramme", "Save a programme", """
                Saves a new version. What is left out has its default. Values beyond the floors of the rules, cut-offs in the wrong order, protocols of
                the wrong animals and days or times that do not exist are refused, all at once. Manager.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(ProgrammeInput), "The programme.", ProgrammeExamples.Programme)
            .AnswersJson(200, "It was saved.", typeof(ProgrammeSaved), ProgrammeExamples.Saved)
            .Refuses(400, 413, 415);
        herd.MapPost("/programme/check", CheckEndpoint.Post)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe("Programme", "checkProgramme", "Try a programme without saving it", """
                For each weekday of service, and of calving where first service is by protocol, the dated chain from service to insemination with slack, slips,
                infeasible, weekend and off-hours steps. A suggestion is proven: the check was run on the changed programme.
                """)
            .Reads(typeof(ProgrammeInput), "The programme.", ProgrammeExamples.Programme)
            .AnswersJson(200, "What the check found.", typeof(CheckAnswer), CheckExamples.Answer)
            .Refuses(400, 413, 415);
        herd.MapPost("/programme/approvals", ApprovalEndpoint.Post)
            .WithMetadata(new Needs(Permissions.Approve))
            .Describe("Programme", "approveProgramme", "Approve a version", "Releases the drug steps and protocol inseminations of a version. Veterinarian.")
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(ApprovalInput), "The version, and the last day the approval holds.", ProgrammeExamples.Approval)
            .AnswersJson(201, "It is approved.", typeof(ApprovalAnswer), ProgrammeExamples.Approved)
            .Conflicts(ProblemTypes.DraftNotApprovable)
            .Refuses(400, 413, 415);
        herd.MapPost("/programme/refusals", RefusalEndpoint.Post)
            .WithMetadata(new Needs(Permissions.Approve))
            .Describe("Programme", "refuseProgramme", "Refuse a version", """
                Says why in a note that the manager reads. Approvals of the version given before hold no longer: its drug steps and protocol inseminations wait
                until it is approved again. Veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(RefusalInput), "The version, and why.", ProgrammeExamples.Refusal)
            .AnswersJson(201, "It is refused.", typeof(RefusalAnswer), ProgrammeExamples.Refused)
            .Refuses(400, 413, 415);
    }

    private static IResult Get(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        var request = context.Herd();
        var on = query.Day("on") ?? request.Today;
        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var saved = store.Programmes.List(request.Herd, null).Where(p => !p.Draft).ToArray();
        if (saved.Length == 0)
        {
            return Results.Ok(ProgrammeMapping.Defaults(on));
        }

        var inForce = new HerdRules(request.Zone, saved.Select(p => p.Version)).On(on);
        return Results.Ok(ProgrammeMapping.Answer(saved.First(p => p.Version.Number == inForce.Number), on));
    }

    private static IResult Versions(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var request = context.Herd();
        var saved = store.Programmes.List(request.Herd, null);
        return Results.Ok(new ProgrammeVersions
        {
            Versions = [.. saved.Select(p => ProgrammeMapping.Answer(p, request.Today))],
            Programme = ProgrammeNote.Of(saved.Any(p => !p.Draft)),
        });
    }

    private static async Task<IResult> Put(HttpContext context, Store store)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var problems = new FieldProblems();
        var programme = ProgrammeReader.Read(new ObjectReader(body.Root, problems), request.Today, ProtocolCatalogue.Of(store, request.Herd));
        var (idempotency, wrongKey) = IdempotencyHeader.Of(context, body.Bytes);
        if (problems.Any || wrongKey is not null)
        {
            return wrongKey ?? Problem.OfBody(problems.List);
        }

        var json = body.Root.GetRawText();
        var check = CheckEndpoint.Run(programme, request, store);
        var draft = !check.IsFeasible;
        if (idempotency is null)
        {
            return Results.Ok(Saved(await store.Programmes.Save(request.Herd, programme, draft, json, request.Caller.Name, request.Now), check));
        }

        var once = await store.Programmes.Save(
            request.Herd, programme, draft, json, request.Caller.Name, request.Now, idempotency, v => IdempotencyHeader.Keep(200, Saved(v, check)));
        return IdempotencyHeader.Answer(once.Status, once.Answer);
    }

    private static ProgrammeSaved Saved(int version, CheckedProgramme check) => new()
    {
        Version = version,
        State = check.IsFeasible ? "saved" : "draft",
        Findings = CheckMapping.Findings(check),
    };
}
