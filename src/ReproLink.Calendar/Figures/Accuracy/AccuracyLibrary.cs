using System.Text.Json;
using System.Text.Json.Serialization;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Figures.Accuracy;

/// <summary>Published accuracies of pregnancy tests, read once from the embedded data.</summary>
public static class AccuracyLibrary
{
    /// <summary>The study reckoned with unless another is chosen: the largest blood study at day 28 whose counts are known.</summary>
    public const string Usual = "mayo-2016-plasma";

    private const string Resource = "ReproLink.Calendar.Figures.Accuracy.Data.published-accuracy.json";

    // A misspelt property would otherwise be a figure that is silently missing.
    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectRequiredConstructorParameters = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
    };

    private static readonly Lazy<IReadOnlyList<PublishedAccuracy>> Loaded = new(Read);

    /// <summary>All of them, in the order of the data.</summary>
    public static IReadOnlyList<PublishedAccuracy> All => Loaded.Value;

    /// <summary>Those that can be reckoned with.</summary>
    public static IEnumerable<PublishedAccuracy> Usable => All.Where(a => a.NotUsable is null);

    /// <summary>One by its id; null when there is none.</summary>
    public static PublishedAccuracy? Find(string? id) => All.FirstOrDefault(a => a.Id == id);

    private static List<PublishedAccuracy> Read()
    {
        using var stream = typeof(AccuracyLibrary).Assembly.GetManifestResourceStream(Resource)!;
        return [.. JsonSerializer.Deserialize<Row[]>(stream, Strict)!.Select(row => row.Published())];
    }

    private sealed record Row(
        string Id, string Study, string Test, TestMethod Method, string Days, CountsKnown Counts, Evidence Evidence, RatesCheck Check, string Note,
        string? Doi = null, string? Specimen = null, int? Animals = null,
        int? TruePositive = null, int? FalsePositive = null, int? FalseNegative = null, int? TrueNegative = null,
        decimal? Sensitivity = null, decimal? Specificity = null, decimal? PositivePredictive = null, decimal? NegativePredictive = null, decimal? Accuracy = null,
        double[]? SensitivityLimits = null, double[]? SpecificityLimits = null,
        decimal? Inconclusive = null, decimal? SharePregnant = null, string? Reference = null)
    {
        public PublishedAccuracy Published() => new(Id, Study, Test, Method, Days, Counts, Evidence, Check, Note)
        {
            Doi = Doi,
            Specimen = Specimen,
            Animals = Animals,
            Table = (TruePositive, FalsePositive, FalseNegative, TrueNegative) is ({ } tp, { } fp, { } fn, { } tn) ? new AccuracyTable(tp, fp, fn, tn) : null,
            Sensitivity = Sensitivity,
            Specificity = Specificity,
            PositivePredictive = PositivePredictive,
            NegativePredictive = NegativePredictive,
            Accuracy = Accuracy,
            SensitivityLimits = Limits(SensitivityLimits),
            SpecificityLimits = Limits(SpecificityLimits),
            Inconclusive = Inconclusive,
            SharePregnant = SharePregnant,
            Reference = Reference,
        };

        private static Interval? Limits(double[]? pair) => pair is [var low, var high] ? new Interval(low, high) : null;
    }
}
