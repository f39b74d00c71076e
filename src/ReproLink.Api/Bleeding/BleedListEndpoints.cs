using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Api.Bleeding;

/// <summary>Which cows to bleed.</summary>
internal static class BleedListEndpoints
{
    /// <summary>A week, its first day included.</summary>
    private const int UsualDaysAfterFirst = 6;
    private const int MostDays = 366;

    public static void MapBleedLists(this IEndpointRouteBuilder herd) => herd.MapGet("/bleed-list", Get)
        .WithMetadata(new Needs(Permissions.Read))
        .Describe("Bleed list", "getBleedList", "Which cows to bleed this week", """
            Day by day, by pen: the animals to bleed, with need, window, the step that hangs on the result, and reasons. Every other animal in the herd
            is counted once under one answer and reason. JSON, or CSV with `Accept: text/csv`.
            """)
        .TakesDay("from", "First day; absent = `asOf`.", "2026-10-05")
        .TakesDay("to", "Last day, at most 366 days after `from`; absent = six days after it.", "2026-10-11")
        .TakesDay("asOf", "The day it is made on; absent = the herd's today, or its day at `knownAt`.", "2026-10-05")
        .TakesInstant("knownAt", "The moment whose knowledge it rests on; absent = now.")
        .Takes(new ParameterDoc("pen", "Only this pen. Daily limits still count the herd.", "4"))
        .Takes(new ParameterDoc("detail", "`all` names the animals that are not listed.", "all") { Words = ["all"] })
        .AnswersJson(200, "The list.", typeof(BleedListAnswer), BleedListExamples.Json)
        .Answers(200, "The list.", RequestBody.Csv, typeof(string), BleedListExamples.Csv)
        .Refuses(400, 406);

    private static IResult Get(HttpContext context, Store store)
    {
        var request = context.Herd();
        var query = new QueryReader(context);
        var moment = MomentQuery.Read(query, request);
        var asOf = moment.AsOf ?? moment.Today;
        var from = query.Day("from") ?? asOf;
        var to = query.Day("to") ?? from + UsualDaysAfterFirst;
        var pen = query.Text("pen");
        var detail = query.Word("detail", "all");
        if (to < from || to - from > MostDays)
        {
            query.Refuse("to", to.ToString(), $"from 'from', {from}, to {MostDays} days after it");
        }

        var form = Acceptance.Of(context, RequestBody.Json, RequestBody.Csv);
        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        if (form is null)
        {
            return Acceptance.Refusal(RequestBody.Json, RequestBody.Csv);
        }

        var view = store.ViewOf(request, asOf, moment.KnownAt);
        var question = new ListQuestion(from, to, asOf, pen, detail is not null);
        return form == RequestBody.Csv
            ? Results.Text(BleedListCsv.Write(Answer(view, question)), "text/csv; charset=utf-8")
            : KeptLists.Answer(view, question, Answer);
    }

    /// <summary>The list, for answers and pages alike.</summary>
    public static BleedList List(HerdView view, ListQuestion question)
    {
        var animals = view.Animals.All(a => a.Exists) ? view.Animals : [.. view.Animals.Where(a => a.Exists)];
        return BleedLists.Make(animals, view.Rules, question.From, question.To, question.AsOf, question.Pen);
    }

    private static BleedListAnswer Answer(HerdView view, ListQuestion question) =>
        BleedListMapping.Answer(List(view, question), view, question.Pen, question.WithAll);
}
