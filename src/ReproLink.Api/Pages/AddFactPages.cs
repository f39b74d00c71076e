using Microsoft.AspNetCore.Mvc;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Calendar.Status;
using ReproLink.Records;
using ReproLink.Web.Forms;
using ReproLink.Web.Pages;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>Adding a fact by hand: a form for each kind with its own fields, read by the reader of the API.</summary>
internal static class AddFactPages
{
    private const int MostName = 100;

    public static void MapAddFact(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/animals/{animal}/add", Get);
        herd.MapPost("/animals/{animal}/add", Post);
    }

    private static IResult Get(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var animal = HerdAccessMiddleware.Part(context, "animal");
        var form = FactForms.Find(PageQuery.Text(context, "kind"));
        var values = new Dictionary<string, string>(form?.Kind == "animal" ? FactForms.Of(request.View.Find(animal)?.Card) : new Dictionary<string, string>())
        {
            ["date"] = PageQuery.Day(context, "date", request.View.AsOf).ToString(),
        };
        return Page(context, request, animal, form, FilledForm.Empty with { Values = values });
    }

    private static async Task<IResult> Post(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection fields, [FromQuery] string kind)
    {
        var (request, instead) = Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var animal = HerdAccessMiddleware.Part(context, "animal");
        if (FactForms.Find(kind) is not { } form)
        {
            return PageResults.NotThere(T("common.not-recorded"), T("addFact.there-is-no-such-kind-of-fact"), 422);
        }

        var once = fields["once"].ToString();
        var problems = new FieldProblems();
        var item = FormJson.Item(form.Fields.Select(f => (f.Name, (string?)fields[f.Name].ToString()))
            .Append(("animal", animal)).Append(("kind", form.Kind)).Append(("sourceId", $"page {once}")));
        var (draft, _) = new FactReader(HerdRequest.Of(request.Caller, request.View.Herd, request.Now)).Read(item, problems);
        if (draft is null)
        {
            return Page(context, request, animal, form, new FilledForm(FormJson.Values(fields), FormJson.Problems(problems)), once, 422);
        }

        var stored = await store.Facts.SubmitOnce(request, draft, once);
        return Results.Redirect($"{request.Frame.Animal(animal)}?notice={(stored.WasThere ? "recorded-before" : "recorded")}#{stored.Fact}");
    }

    private static (PageRequest? Request, IResult? Instead) Of(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        return request is null ? (null, instead)
            : !request.Caller.Can(Permissions.PostFacts) ? (null, PageResults.NotAllowed(Say.MayNotRecord))
            : HerdAccessMiddleware.Part(context, "animal").Length > MostName ? (null, PageResults.NotThere(T("addFact.there-is-no-such-animal"), T("addFact.no-animal-has-so-long-a-name")))
            : (request, null);
    }

    private static IResult Page(HttpContext context, PageRequest request, string animal, FactForm? form, FilledForm filled, string? once = null, int status = 200)
    {
        var state = request.View.Find(animal);
        return PageResults.Page<AddFactPage>(context, new
        {
            Shown = request.Frame,
            Animal = animal,
            IsNew = state is null,
            Form = form,
            Filled = filled,
            Once = string.IsNullOrEmpty(once) ? Guid.NewGuid().ToString("N") : once,
            Confirmable = Confirmable(state),
        }, status);
    }

    // F6: the facts that raised a conflict about a calving.
    private static (string, string)[] Confirmable(AnimalState? state) => state is null ? [] :
        [.. from conflict in state.Conflicts
            where conflict.Kind is ConflictKind.CalvedWhileOpen or ConflictKind.CalvedTooSoon
            from fact in state.History.Facts
            where fact.Id == conflict.RaisedBy
            select ($"{fact.Source}\n{fact.SourceId}", $"{FactLine.Of(fact)}, {Say.LongDay(fact.Day)}")];
}
