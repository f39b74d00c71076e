using Microsoft.OpenApi;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace ReproLink.Api.OpenApi;

/// <summary>What each group of addresses is for.</summary>
internal sealed class TagDetails : IDocumentFilter
{
    private static readonly (string Name, string Description)[] Tags =
    [
        ("Herd", "A location and the herd kept at it."),
        ("Facts", "What happened: posted, listed, withdrawn, never changed."),
        ("Test results", "What tests and examinations said."),
        ("Held results", "Results that could not be tied to one animal and sample; they wait for a person."),
        ("Received lines", "Every line of every batch of results, as received, and what became of it."),
        ("Sampling rounds", "A frozen list with its labelled tubes, from the chute to the laboratory."),
        ("Programme", "The herd's written policy, its versions and approvals."),
        ("What-if", "What another programme would change, and what a test is worth in this herd."),
        ("Bleed list", "Which cows to bleed, on which day, and why not the others."),
        ("Work calendar", "Dated work of a period: draws, steps of plans with their state, dispatches, results expected, examinations, alerts."),
        ("Calendar feed", "The same for calendar programs, behind secret addresses (RFC 5545)."),
        ("Protocols", "Published sequences of steps with their sources, and the herd's own."),
        ("Animals", "One animal: her answer on a day, and her story."),
        ("Figures", "Whether it works: rates, days and agreement with what they are out of, and the animals behind them."),
        ("Changes", "What changed, for programs that follow."),
        ("Webhooks", "Addresses that are told of changes, by the Standard Webhooks specification."),
        ("Exchange standard", "Messages of the open exchange standard of dairy data (ICAR ADE 1.4 schemas) at its addresses, with its wrappers and errors."),
        ("Service", "The service itself."),
        ("Problems", "What refusals mean."),
        ("Trials", "Only in the `Testing` environment and in `demo`."),
    ];

    public void Apply(OpenApiDocument swaggerDoc, DocumentFilterContext context)
    {
        var used = swaggerDoc.Paths.Values.SelectMany(p => p.Operations!.Values).SelectMany(o => o.Tags!).Select(t => t.Name).ToHashSet();
        swaggerDoc.Tags = Tags.Where(t => used.Contains(t.Name)).Select(t => new OpenApiTag { Name = t.Name, Description = t.Description }).ToHashSet();
    }
}
