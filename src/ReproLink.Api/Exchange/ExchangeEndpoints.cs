using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.AnimalSets;
using ReproLink.Api.Exchange.Conclusions;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Herds;
using ReproLink.Api.Exchange.Movements;
using ReproLink.Api.Exchange.PregnancyChecks;
using ReproLink.Api.Exchange.Reproduction;
using ReproLink.Api.Exchange.Treatments;

namespace ReproLink.Api.Exchange;

/// <summary>The open exchange standard at its own addresses (implements ICAR ADE 1.4 schemas).</summary>
internal static class ExchangeEndpoints
{
    public const string Herd = "/locations/{scheme}/{id}";

    /// <summary>Every kind of event that comes in and goes out.</summary>
    public static readonly IReadOnlyList<EventNoun> Nouns =
    [
        InseminationMapping.Inseminations, CheckMapping.Checks, ReproductionMapping.Heats, ReproductionMapping.Parturitions,
        ReproductionMapping.Abortions, ReproductionMapping.DoNotBreeds, ReproductionMapping.DryingOffs, MovementMapping.Arrivals,
        MovementMapping.Departures, MovementMapping.Deaths, TreatmentMapping.Treatments,
    ];

    public static void MapExchange(this IEndpointRouteBuilder app)
    {
        app.MapLocations();
        app.MapConclusions();
        app.MapAnimalSets();
        app.MapPosts(AnimalNoun.Animals);
        foreach (var noun in Nouns)
        {
            app.MapEvents(noun);
        }
    }
}
