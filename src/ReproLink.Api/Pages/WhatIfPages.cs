using System.Text.Json;
using NodaTime;
using ReproLink.Api.Accuracy;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Api.WhatIf;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Records;
using ReproLink.Web.Pages;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>What another programme would change, and what a test is worth in this herd.</summary>
internal static class WhatIfPages
{
    private const int SlowerBy = 4;

    public static void MapWhatIfPages(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/what-if", Get);
        herd.MapGet("/test-in-herd", GetTest);
    }

    private static IResult Get(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var view = request.View;
        var current = view.Rules.On(view.AsOf).Programme;
        var catalogue = ProtocolCatalogue.Of(store, view.Herd);
        var form = new WhatIfForms(context.Request.Query.Count > 0 ? context.Request.Query : Opening(current));
        var problems = new FieldProblems();
        using var body = JsonSerializer.SerializeToDocument(form.Body());
        var asked = WhatIfReader.Read(body.RootElement, view, catalogue, problems);
        var comparison = asked is null || form.HasProblems ? null : WhatIfComparison.Of(asked.Programmes, asked.Prices);
        return PageResults.Page<WhatIfPage>(context, new
        {
            Shown = request.Frame,
            Form = form.Typed(problems.List),
            Own = asked?.Own ?? KeptRates.Of(view, null, null),
            Current = current,
            Protocols = Choosable(catalogue, current),
            Comparison = comparison,
        }, comparison is null && context.Request.Query.Count > 0 ? 422 : 200);
    }

    private static IResult GetTest(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var form = new TestForms(context.Request.Query);
        var query = new QueryReader(form.Asked());
        var asked = AccuracyAsked.Read(query, request.View);
        return PageResults.Page<TestInHerdPage>(context, new
        {
            Shown = request.Frame,
            Form = form.Typed(query.Problems.List),
            asked.Own,
            asked.Report,
            asked.LostPregnancy,
            asked.PaysFrom,
        }, form.HasProblems || query.Problems.Any ? 422 : 200);
    }

    // The question everybody has first: what does a slower answer cost?
    private static QueryCollection Opening(Programme current) => new(new Dictionary<string, Microsoft.Extensions.Primitives.StringValues>
    {
        ["name1"] = T("whatIf.as-now"),
        ["name2"] = current.Laboratory.Kind == LaboratoryKind.OnFarm ? T("whatIf.sent-to-a-laboratory-four-working") : T("whatIf.laboratory-four-working-days-slower"),
        ["laboratory2"] = "laboratory",
        ["turnaround2"] = $"{(current.Laboratory.Kind == LaboratoryKind.OnFarm ? 0 : current.Laboratory.TurnaroundWorkingDays) + SlowerBy}",
    });

    private static List<Protocol> Choosable(ProtocolCatalogue catalogue, Programme current) =>
    [
        .. catalogue.All.Where(p => (p.Class is AnimalClass.DairyCow or AnimalClass.BeefCow or AnimalClass.Any && p.Use != ProtocolUse.FirstService && catalogue.MayBeChosen(p)
            && p.Steps.Any(s => s.Kind == StepKind.Inseminate)) || p.Id == current.Resynchronisation.Protocol),
    ];
}
