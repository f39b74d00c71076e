using ReproLink.Api.Problems;

namespace ReproLink.Api.Exchange;

/// <summary>Which addresses are the standard's: their refusals have its form, whoever refuses.</summary>
internal static class ExchangePaths
{
    // Every noun the standard has below a location, also those not served here.
    private static readonly HashSet<string> Nouns = new(StringComparer.Ordinal)
    {
        "pregnancy-checks", "inseminations", "heats", "abortions", "parturitions", "do-not-breeds", "drying-offs", "mating-recommendations",
        "gestations", "repro-status-observations", "repro-embyro-flushings", "embryo-flushings", "animals", "births", "deaths", "arrivals",
        "departures", "group-births", "group-deaths", "group-arrivals", "group-departures", "animal-sets", "animal-set-joins",
        "animal-set-leaves", "devices", "diagnoses", "treatments", "group-treatments", "treatment-programs", "health-status",
        "attention-events", "medicine-transaction", "test-days", "test-day-results", "milking-visits", "lactation-status-observations",
        "lactations", "statistics",
    };

    private static readonly ProblemForm Form = new("application/json", ExchangeErrors.Of);

    /// <summary>Marks a request at the standard's addresses before anything can refuse it.</summary>
    public static void UseExchangeErrors(this WebApplication app)
    {
        // Read when all endpoints are mapped.
        var own = new Lazy<HashSet<string>>(() => OwnWords(app));
        app.Use((context, next) =>
        {
            if (IsStandard(context.Request, own))
            {
                context.Features.Set(Form);
            }

            return next(context);
        });
    }

    private static bool IsStandard(HttpRequest request, Lazy<HashSet<string>> own)
    {
        var parts = request.Path.Value!.Split('/', StringSplitOptions.RemoveEmptyEntries);
        return parts switch
        {
            ["locations"] or ["batches", ..] => true,
            ["locations", _, _, ..] when parts.Length is 4 or 5 && Nouns.Contains(parts[3]) => true,
            // A word that neither side knows: whoever accepts JSON and no problem details gets the standard's form.
            ["locations", _, _, var word] => request.Headers.Accept is ["application/json"] && !own.Value.Contains(word),
            _ => false,
        };
    }

    // What stands after a location in addresses of our own.
    private static HashSet<string> OwnWords(IEndpointRouteBuilder app) => app.DataSources.SelectMany(d => d.Endpoints).OfType<RouteEndpoint>()
        .Where(e => e.Metadata.GetMetadata<StandardForm>() is null)
        .Select(e => e.RoutePattern.RawText!.Split('/', StringSplitOptions.RemoveEmptyEntries))
        .Where(parts => parts is ["locations", _, _, _, ..])
        .Select(parts => parts[3])
        .ToHashSet(StringComparer.Ordinal);
}
