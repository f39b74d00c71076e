using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Intake;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;
using ReproLink.Web.Forms;
using ReproLink.Web.Pages;
using ReproLink.Web.Results;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages.IncomingResults;

/// <summary>Saying how a sender's files are read, with one of them on the table.</summary>
internal static class MappingPages
{
    private const int MostWords = 40;

    public static void MapMappingPages(this IEndpointRouteBuilder herd) => herd.MapForm("/results/mapping", Post);

    /// <summary>Whether a refusal means that the file is to be read another way, and not that it is broken.</summary>
    public static bool Concerns(Problem refusal, ResultFile file, Store store, HerdRequest request) =>
        !file.Text.TrimStart().StartsWith('[')
        && (refusal.Body.Type == ProblemTypes.MappingNotFound.Uri
            || (refusal.Body.Type == ProblemTypes.InvalidRequest.Uri && (file.Sender is null || store.ResultMappings.Find(request.Herd, file.Sender) is not null)));

    /// <summary>Asks how a file is read, filled in with what is saved or plain.</summary>
    public static IResult Ask(HttpContext context, Store store, PageForm form, ResultFile file, Problem? why)
    {
        if (!form.Request.Caller.Can(Permissions.Manage))
        {
            return ResultPages.Page(context, store, form.Request, form.Shown($"{why?.Body.Detail} {Say.MayNotManage}"), FormState.Empty, 422);
        }

        var saved = file.Sender is { } sender ? store.ResultMappings.Find(form.Request.View.Herd, sender) : null;
        var input = saved is null ? null : MappingEndpoints.Answer(saved);
        var table = ForeignTable.Read(file.Text, input?.Delimiter);
        var state = new FormState(input is null ? MappingForm.Guessed(table) : MappingForm.Of(input), new Dictionary<string, string>(), saved is null ? null : why?.Body.Detail);
        return Page(context, form.Request, file, table, state);
    }

    private static async Task<IResult> Post(HttpContext context, FormDoor door, Store store)
    {
        var (form, instead) = await ResultPages.Admit(context, door);
        if (form is null)
        {
            return instead!;
        }

        if (!form.Request.Caller.Can(Permissions.Manage))
        {
            return PageResults.NotAllowed(Say.MayNotManage);
        }

        if (ResultPages.Given(form) is not { } file)
        {
            return ResultPages.Page(context, store, form.Request, form.Shown(Say.ChooseFile), FormState.Empty, 422);
        }

        if (form.Text("do") == "show")
        {
            return Ask(context, store, form, file, null);
        }

        var table = ForeignTable.Read(file.Text, form.Text("delimiter"));
        if (form.Again is not null || form.Text("do") != "save")
        {
            return Page(context, form.Request, file, table, form.Shown(form.Again), form.Again is null ? 200 : 422);
        }

        if (file.Sender is null)
        {
            return Page(context, form.Request, file, table, With(form, "sender", Say.NameSender), 422);
        }

        // Words nobody was asked about yet: asked first, so that no line is refused for want of a question.
        if (form.Text("word-0") is null && Unknown(table, form.Text("col-outcome")).Count > 0)
        {
            return Page(context, form.Request, file, table, With(form, "outcomes", Say.WordsMean), 422);
        }

        using var body = MappingForm.Body(form);
        var (_, refusal) = await MappingEndpoints.Save(store, form.Request.Herd, file.Sender, new ObjectReader(body.Root, new FieldProblems()));
        return refusal is null
            ? await ResultPages.Show(context, store, form, file, null)
            : Page(context, form.Request, file, table, form.Shown(refusal.Body), 422);
    }

    private static FormState With(PageForm form, string field, string sentence) =>
        form.Shown((string?)null) with { Problems = new Dictionary<string, string> { [field] = sentence } };

    private static List<string> Unknown(ForeignTable table, string? heading) =>
        [.. table.Values(heading).Where(word => !FactVocabulary.Outcomes.TryRead(word.ToLowerInvariant(), out _)).Take(MostWords)];

    private static IResult Page(HttpContext context, PageRequest request, ResultFile file, ForeignTable table, FormState form, int status = 200)
    {
        var words = Unknown(table, form.Value("col-outcome"));
        return PageResults.Page<MappingPage>(context, new
        {
            Shown = request.Frame,
            File = file,
            table.Header,
            table.Rows,
            Words = (IReadOnlyList<string>)words,
            DateGuess.Of(table.Values(form.Value("col-sampled"))).Ambiguous,
            Form = MappingForm.Renumbered(form, words),
        }, status);
    }
}
