using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Transfer;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures;
using ReproLink.Records;

namespace ReproLink.Api.Figures;

/// <summary>Whether it works: the herd's figures, and the animals behind each.</summary>
internal static class FigureEndpoints
{
    /// <summary>Five years and the leap days in them: what a herd keeps in reach.</summary>
    public const int MostDays = (5 * 365) + 2;
    private const int LeastWaiting = 20;
    private const int MostWaiting = 200;

    public static void MapFigures(this IEndpointRouteBuilder herd)
    {
        Asks(herd.MapGet("/figures", Get))
            .Describe("Figures", "getFigures", "The herd's figures for a period", """
                Conception risk, 21-day rates, days from calving, test outcomes and agreement, losses, steps done: each with numerator, denominator, 95 %
                interval, rule, and what was left out and why. Unknown is never counted as open; out of none there is no value. Recent cycles are `pending`
                and in no total. JSON, or CSV with `Accept: text/csv`.
                """)
            .AnswersJson(200, "The figures.", typeof(FiguresAnswer), FigureExamples.Json)
            .Answers(200, "The figures.", RequestBody.Csv, typeof(string), FigureExamples.Csv)
            .Refuses(400, 406);
        Asks(herd.MapGet("/figures/{figure}/animals", Animals))
            .Describe("Figures", "getFigureAnimals", "The animals behind a figure", """
                Who is in the numerator, who only in the denominator, and who was left out and why, with the fact each rests on. JSON, or CSV with
                `Accept: text/csv`.
                """)
            .Takes(new ParameterDoc("line", "Only this line of the figure; absent = all.", "all"))
            .AnswersJson(200, "The animals.", typeof(FigureAnimalsAnswer), FigureExamples.Animals)
            .Answers(200, "The animals.", RequestBody.Csv, typeof(string), FigureExamples.AnimalsCsv)
            .Refuses(400, 404, 406);
    }

    /// <summary>Whole 21-day cycles that end on the last day: about a year.</summary>
    public static Day UsualFrom(Day to) => to - 356;

    private static RouteHandlerBuilder Asks(RouteHandlerBuilder endpoint) => endpoint
        .WithMetadata(new Needs(Permissions.Read))
        .Tags()
        .TakesDay("from", "First day, on which the first 21-day cycle begins; absent = 17 cycles that end on `to`.", "2025-10-14")
        .TakesDay("to", "Last day, at most five years after `from`; absent = `asOf`.", "2026-10-05")
        .TakesDay("asOf", "The day they are made on; absent = the herd's today, or its day at `knownAt`.", "2026-10-05")
        .TakesInstant("knownAt", "The moment whose knowledge they rest on; absent = now.")
        .Takes(new ParameterDoc("waitingPeriod", "Days from calving before which no cow is meant to be served, 20 to 200; absent = the programme's, else 60.", "60", "integer"));

    private static IResult Get(HttpContext context, Store store)
    {
        var asked = Asked.Read(context, store, null);
        if (asked.Refusal is { } refusal)
        {
            return refusal;
        }

        var answer = FigureMapping.Answer(asked.View!, FigureSets.Of(asked.View!, asked.Question!), asked.KnownAt);
        return asked.Form == RequestBody.Csv ? Results.Text(FigureCsv.Write(answer), "text/csv; charset=utf-8") : Results.Ok(answer);
    }

    private static IResult Animals(HttpContext context, Store store, string figure)
    {
        if (FigureBook.Find(figure) is null)
        {
            return Problem.Of(ProblemTypes.NotFound, $"There is no figure '{figure}'. There are: {string.Join(", ", FigureBook.All.Select(d => d.Id))}.");
        }

        var asked = Asked.Read(context, store, figure);
        if (asked.Refusal is { } refusal)
        {
            return refusal;
        }

        var set = FigureSets.Of(asked.View!, asked.Question!);
        if (asked.Line is { } line && set[figure].Line(line) is null)
        {
            var query = new QueryReader(context);
            query.Refuse("line", line, "one of " + string.Join(", ", set[figure].Lines.Select(l => l.Key)));
            return Problem.OfQuery(query.Problems.List);
        }

        var answer = FigureMapping.Animals(set, set[figure], asked.Line, asked.KnownAt);
        return asked.Form == RequestBody.Csv ? Results.Text(FigureCsv.Write(answer), "text/csv; charset=utf-8") : Results.Ok(answer);
    }

    /// <summary>A question as read, or why it is refused.</summary>
    private sealed record Asked(IResult? Refusal, HerdView? View = null, FigureQuestion? Question = null, string? Form = null, string? Line = null, Instant? KnownAt = null)
    {
        public static Asked Read(HttpContext context, Store store, string? figure)
        {
            var request = context.Herd();
            var query = new QueryReader(context);
            var moment = MomentQuery.Read(query, request);
            var asOf = moment.AsOf ?? moment.Today;
            var to = query.Day("to") ?? asOf;
            var from = query.Day("from") ?? UsualFrom(to);
            var waiting = query.Integer("waitingPeriod", LeastWaiting, MostWaiting, 0);
            var line = figure is null ? null : query.Words("line");
            if (to < from || to - from > MostDays)
            {
                query.Refuse("to", to.ToString(), $"from 'from', {from}, to five years after it");
            }

            var form = Acceptance.Of(context, RequestBody.Json, RequestBody.Csv);
            if (query.Done() is { } refusal)
            {
                return new Asked(refusal);
            }

            if (form is null)
            {
                return new Asked(Acceptance.Refusal(RequestBody.Json, RequestBody.Csv));
            }

            var question = new FigureQuestion(from, to) { WaitingPeriod = waiting == 0 ? null : waiting, Detail = figure };
            return new Asked(null, store.ViewOf(request, asOf, moment.KnownAt), question, form, line, moment.KnownAt);
        }
    }
}
