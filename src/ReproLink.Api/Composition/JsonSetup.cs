using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using NodaTime.Serialization.SystemTextJson;
using NodaTime.Text;

namespace ReproLink.Api.Composition;

/// <summary>How answers are written: camelCase, what is absent is left out, dates and times as the contract says.</summary>
public static class JsonSetup
{
    /// <summary>For answers written outside an endpoint's result.</summary>
    public static readonly JsonSerializerOptions Options = Made();

    public static void Configure(JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        options.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
        // Only escape what JSON itself must escape: names of animals are read by people. Answers are never put into HTML.
        options.Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        options.Converters.Add(NodaConverters.InstantConverter);
        options.Converters.Add(NodaConverters.LocalDateConverter);
        options.Converters.Add(new NodaPatternConverter<LocalTime>(LocalTimePattern.CreateWithInvariantCulture("HH:mm")));
    }

    private static JsonSerializerOptions Made()
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web);
        Configure(options);
        return options;
    }
}
