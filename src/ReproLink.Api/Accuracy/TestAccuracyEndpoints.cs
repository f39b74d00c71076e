using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Api.Transfer;
using ReproLink.Records;

namespace ReproLink.Api.Accuracy;

/// <summary>What a test's answers are worth in this herd.</summary>
internal static class TestAccuracyEndpoints
{
    public static void MapTestAccuracy(this IEndpointRouteBuilder herd) => herd.MapGet("/test-accuracy", Get)
        .WithMetadata(new Needs(Permissions.Read))
        .Describe("What-if", "getTestAccuracy", "What a test is worth in this herd", """
            Predictive values of a published accuracy at the herd's own share pregnant, how many wrong `open` to expect and what they cost, whether a second
            sample before treatment pays, and all published accuracies with their sources. JSON, or CSV of the studies with `Accept: text/csv`.
            """)
        .Takes(new ParameterDoc("study", "The study to reckon with; absent = mayo-2016-plasma.", "karen-2015-pag-elisa"))
        .Takes(new ParameterDoc("sharePregnant", "True share pregnant among the tested, 0 to 1, in place of the herd's own.", "0.4"))
        .TakesDay("from", "First day of the services whose first tests are counted; absent = a year before `to`.", "2025-08-07")
        .TakesDay("to", "Last day of those services, at least 60 days ago; absent = 60 days ago.", "2026-08-06")
        .Takes(new ParameterDoc("testPrice", "Your price of a test.", "4"))
        .Takes(new ParameterDoc("dayOpenPrice", "Your price of a day open.", "3"))
        .Takes(new ParameterDoc("lostPregnancyPrice", "Your price of a pregnancy ended by treatment.", "500"))
        .AnswersJson(200, "The test in this herd.", typeof(TestAccuracyAnswer), TestAccuracyExamples.Json)
        .Tags()
        .Answers(200, "The test in this herd.", RequestBody.Csv, typeof(string), TestAccuracyExamples.Csv)
        .Refuses(400, 406);

    private static IResult Get(HttpContext context, Store store)
    {
        var request = context.Herd();
        var query = new QueryReader(context);
        var view = store.ViewOf(request, request.Today, null);
        var asked = AccuracyAsked.Read(query, view);
        var form = Acceptance.Of(context, RequestBody.Json, RequestBody.Csv);
        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        if (form is null)
        {
            return Acceptance.Refusal(RequestBody.Json, RequestBody.Csv);
        }

        var answer = TestAccuracyMapping.Answer(asked, view);
        return form == RequestBody.Csv ? Results.Text(TestAccuracyCsv.Write(answer), "text/csv; charset=utf-8") : Results.Ok(answer);
    }
}
