using System.Text;
using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.Composition;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Dates;
using ReproLink.Records;
using ReproLink.Web.Forms;
using ReproLink.Web.Pages;
using ReproLink.Web.Results;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages.IncomingResults;

/// <summary>Results: a file or one typed, looked at line by line, then stored.</summary>
internal static class ResultPages
{
    private const int BatchesShown = 20;

    public static void MapResultPages(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/results", Get);
        herd.MapForm("/results/preview", Preview);
        herd.MapForm("/results/store", Keep);
        herd.MapMappingPages();
        herd.MapReceivedPages();
        herd.MapHeldPages();
    }

    private static IResult Get(HttpContext context, FormDoor door, Store store)
    {
        var (request, instead) = door.Look(context);
        return request is null ? instead! : Page(context, store, request, FormState.Empty, FormState.Empty);
    }

    private static async Task<IResult> Preview(HttpContext context, FormDoor door, Store store)
    {
        var (form, instead) = await Admit(context, door);
        if (form is null)
        {
            return instead!;
        }

        var typed = form.Text("typed") is not null;
        if (form.Again is not null || form.Text("do") == "change")
        {
            var shown = form.Shown(form.Again);
            return typed
                ? Page(context, store, form.Request, FormState.Empty, shown, form.Again is null ? 200 : 422)
                : Page(context, store, form.Request, shown, FormState.Empty, 422);
        }

        if (typed)
        {
            return await Show(context, store, form, new ResultFile(TypedResults.Json(form), null, null), TypedResults.Fields(form));
        }

        return Given(form) is { } file
            ? await Show(context, store, form, file, null)
            : Page(context, store, form.Request, form.Shown((string?)null) with { Problems = new Dictionary<string, string> { ["file"] = Say.ChooseFile } }, FormState.Empty, 422);
    }

    /// <summary>A file goes before what was pasted; none of both = null.</summary>
    public static ResultFile? Given(PageForm form) =>
        (form.Text("file") is null ? form.Raw("text") : form.Raw("file")) is { } text && !string.IsNullOrWhiteSpace(text)
            ? new ResultFile(text.TrimStart('\uFEFF'), form.Text("file-name") ?? form.Text("name"), form.Text("sender"))
            : null;

    /// <summary>What a file would do; a file nobody said how to read asks for that first.</summary>
    public static async Task<IResult> Show(HttpContext context, Store store, PageForm form, ResultFile file, IReadOnlyDictionary<string, string>? typed)
    {
        var request = form.Request.Herd;
        var (body, refusal) = ReceivedBody.Of(file.Text, file.Sender, file.Name, request, store);
        using var _ = body;
        if (body is null)
        {
            return MappingPages.Concerns(refusal!, file, store, request)
                ? MappingPages.Ask(context, store, form, file, refusal!)
                : Page(context, store, form.Request, form.Shown(refusal!.Body), FormState.Empty, 422);
        }

        var desk = new ResultDesk(store, request);
        var intake = desk.Intake(body);
        var rules = form.Request.View.Rules;
        var rows = await desk.Preview(intake, (stored, traces) => ResultRows.Ahead(body, intake, stored, traces, rules, request.Today), context.RequestAborted);
        if (typed is not null && rows is [{ Becomes: ReceivedDecision.Rejected }])
        {
            return Page(context, store, form.Request, FormState.Empty, new FormState(typed, TypedResults.Problems(intake), null), 422);
        }

        return PageResults.Page<PreviewPage>(context, new { Shown = form.Request.Frame, File = file, Rows = (IReadOnlyList<ResultRow>)rows, Typed = typed, Form = FormState.Empty });
    }

    private static async Task<IResult> Keep(HttpContext context, FormDoor door, Store store)
    {
        var (form, instead) = await Admit(context, door);
        if (form is null)
        {
            return instead!;
        }

        var request = form.Request.Herd;
        if (Given(form) is not { } file)
        {
            return Page(context, store, form.Request, form.Shown(Say.ChooseFile), FormState.Empty, 422);
        }

        if (form.Again is not null)
        {
            return await Show(context, store, form, file, null);
        }

        var (body, refusal) = ReceivedBody.Of(file.Text, file.Sender, file.Name, request, store);
        using var _ = body;
        if (body is null)
        {
            return Page(context, store, form.Request, form.Shown($"{Say.ReadOtherwise} {refusal!.Body.Detail}"), FormState.Empty, 422);
        }

        var submission = new ResultDesk(store, request).Intake(body).Submission;
        var once = form.Once(context, Encoding.UTF8.GetBytes(file.Text));
        var batch = once is null
            ? (await store.Facts.Submit(request.Herd, submission, request.Now, context.RequestAborted)).Batch
            : BatchOf(await store.Facts.Submit(request.Herd, submission, request.Now, once, Render, context.RequestAborted));
        return batch is { } number
            ? Results.Redirect($"{form.Request.Frame.Path}/results/received/{number}")
            : Page(context, store, form.Request, form.Shown(IdempotencyHeader.Reused.Body), FormState.Empty, 409);

        static StoredAnswer Render(SubmissionAnswer stored) => new(200, "application/json", JsonSerializer.SerializeToUtf8Bytes(stored.Batch, JsonSetup.Options));
    }

    private static long? BatchOf(Once<SubmissionAnswer> once) => once.Answer is { } answer ? PageAnswers.Read<long?>(answer) : null;

    /// <summary>The form, if she may take results in.</summary>
    public static async Task<(PageForm? Form, IResult? Instead)> Admit(HttpContext context, FormDoor door)
    {
        var (form, instead) = await door.Read(context);
        return form is null ? (null, instead)
            : form.Request.Caller.Can(Permissions.PostResults) ? (form, null)
            : (null, PageResults.NotAllowed(Say.MayNotPost));
    }

    public static IResult Page(HttpContext context, Store store, PageRequest request, FormState file, FormState typed, int status = 200) =>
        PageResults.Page<ResultsPage>(context, new
        {
            Shown = request.Frame,
            Waiting = store.Held.Waiting(request.View.Herd),
            Senders = store.ResultMappings.Senders(request.View.Herd),
            Batches = store.Received.Latest(request.View.Herd, BatchesShown).Select(b => (b, Day.From(b.At.InZone(request.Herd.Zone).Date))).ToList(),
            File = file,
            Typed = typed,
        }, status);
}
