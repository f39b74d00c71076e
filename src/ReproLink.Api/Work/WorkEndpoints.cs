using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;

namespace ReproLink.Api.Work;

/// <summary>The dated work of a herd.</summary>
internal static class WorkEndpoints
{
    /// <summary>Two weeks, the first day included.</summary>
    private const int UsualDaysAfterFirst = 13;
    private const int MostDays = 366;

    private static readonly Vocabulary<WorkKind> Kinds = new([.. Enum.GetValues<WorkKind>().Select(k => (WorkWords.Of(k), k))]);

    public static void MapWorkCalendar(this IEndpointRouteBuilder herd) => herd.MapGet("/work-calendar", Get)
        .WithMetadata(new Needs(Permissions.Read))
        .Describe("Work calendar", "getWorkCalendar", "The dated work of a period", """
            Draws, the steps of every plan, dispatches and expected results, examinations, confirmations, dry-off, calvings due and alerts, by day, time,
            pen and animal, with what each day asks for. Prostaglandin is `firm` only where the gate is open and the programme approved. JSON, or CSV
            with `Accept: text/csv`.
            """)
        .TakesDay("from", "First day; absent = `asOf`.", "2026-10-05")
        .TakesDay("to", "Last day, at most 366 days after `from`; absent = 13 days after it.", "2026-10-18")
        .TakesDay("asOf", "The day it is made on; absent = the herd's today, or its day at `knownAt`.", "2026-10-05")
        .TakesInstant("knownAt", "The moment whose knowledge it rests on; absent = now.")
        .Takes(new ParameterDoc("pen", "Only this pen.", "4"))
        .Takes(new ParameterDoc("kind", "Only this kind of work.", "step") { Words = [.. Kinds.Words] })
        .Takes(new ParameterDoc("include", "`cancelled` shows cancelled steps too.", "cancelled") { Words = ["cancelled"] })
        .AnswersJson(200, "The work.", typeof(WorkCalendarAnswer), WorkExamples.Answer)
        .Answers(200, "The work.", RequestBody.Csv, typeof(string), WorkExamples.Csv)
        .Refuses(400, 406);

    private static IResult Get(HttpContext context, Store store)
    {
        var request = context.Herd();
        var query = new QueryReader(context);
        var moment = MomentQuery.Read(query, request);
        var asOf = moment.AsOf ?? moment.Today;
        var asked = Asked(query, asOf);
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
        var answer = WorkMapping.Answer(view, Schedule(view, asked));
        return form == RequestBody.Csv
            ? Results.Text(WorkCsv.Write(answer), "text/csv; charset=utf-8")
            : Results.Ok(answer);
    }

    /// <summary>The work, for answers and pages alike.</summary>
    public static WorkSchedule Schedule(HerdView view, WorkQuery asked) =>
        WorkCalendars.Make(view.Animals, view.Rules, asked, view.AsOf, view.KnownAt);

    private static WorkQuery Asked(QueryReader query, Calendar.Dates.Day asOf)
    {
        var from = query.Day("from") ?? asOf;
        var to = query.Day("to") ?? from + UsualDaysAfterFirst;
        if (to < from || to - from > MostDays)
        {
            query.Refuse("to", to.ToString(), $"from 'from', {from}, to {MostDays} days after it");
        }

        var word = query.Word("kind", [.. Kinds.Words]);
        return new WorkQuery(from, to)
        {
            Pen = query.Text("pen"),
            Kinds = word is not null && Kinds.TryRead(word, out var kind) ? [kind] : [],
            IncludeCancelled = query.Word("include", "cancelled") is not null,
        };
    }
}
