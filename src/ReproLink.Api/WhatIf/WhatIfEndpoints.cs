using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Records;

namespace ReproLink.Api.WhatIf;

/// <summary>What another programme would change.</summary>
internal static class WhatIfEndpoints
{
    public static void MapWhatIf(this IEndpointRouteBuilder herd) => herd.MapPost("/what-if", Post)
        .WithMetadata(new Needs(Permissions.Read))
        .Describe("What-if", "compareProgrammes", "Compare programmes: what would it change?", """
            Up to four programmes side by side: days open, share pregnant by day, tests and doses per pregnancy, pregnancies ended by treatment after a
            wrong `open`. Each is the herd's programme with `changes`; the days between services come from its programme check, so weekdays and the
            laboratory count. Rates are the herd's own with their limits carried through; any may be given. Money only from your prices. Nothing is stored.
            """)
        .Reads(typeof(WhatIfInput), "The programmes, and what to reckon them with.", WhatIfExamples.Asked)
        .AnswersJson(200, "The comparison.", typeof(WhatIfAnswer), WhatIfExamples.Answer)
        .Answers(200, "The comparison.", RequestBody.Csv, typeof(string), WhatIfExamples.Csv)
        .Refuses(400, 406, 413, 415);

    private static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        if (Acceptance.Of(context, RequestBody.Json, RequestBody.Csv) is not { } form)
        {
            return Acceptance.Refusal(RequestBody.Json, RequestBody.Csv);
        }

        var request = context.Herd();
        var problems = new FieldProblems();
        var view = store.ViewOf(request, request.Today, null);
        if (WhatIfReader.Read(body.Root, view, ProtocolCatalogue.Of(store, request.Herd), problems) is not { } asked)
        {
            return Problem.OfBody(problems.List);
        }

        var answer = WhatIfMapping.Answer(asked, WhatIfComparison.Of(asked.Programmes, asked.Prices), view);
        return form == RequestBody.Csv ? Results.Text(WhatIfCsv.Write(answer), "text/csv; charset=utf-8") : Results.Ok(answer);
    }
}
