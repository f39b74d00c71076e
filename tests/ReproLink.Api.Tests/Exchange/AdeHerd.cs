using System.Net;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Clock;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Exchange;

/// <summary>A location asked in the standard's way; whatever comes back is held to the standard's schemas.</summary>
public sealed class AdeHerd(ApiHostFixture host, HerdClient herd)
{
    /// <summary>Noun, its collection and its message.</summary>
    public static readonly IReadOnlyDictionary<string, (string Collection, string Message)> Nouns = new Dictionary<string, (string, string)>
    {
        ["inseminations"] = ("icarReproInseminationEventCollection", "icarReproInseminationEventResource"),
        ["pregnancy-checks"] = ("icarReproPregnancyCheckEventCollection", "icarReproPregnancyCheckEventResource"),
        ["heats"] = ("icarReproHeatEventCollection", "icarReproHeatEventResource"),
        ["parturitions"] = ("icarReproParturitionEventCollection", "icarReproParturitionEventResource"),
        ["abortions"] = ("icarReproAbortionEventCollection", "icarReproAbortionEventResource"),
        ["do-not-breeds"] = ("icarReproDoNotBreedEventCollection", "icarReproDoNotBreedEventResource"),
        ["drying-offs"] = ("icarMilkingDryOffEventCollection", "icarMilkingDryOffEventResource"),
        ["arrivals"] = ("icarMovementArrivalEventCollection", "icarMovementArrivalEventResource"),
        ["departures"] = ("icarMovementDepartureEventCollection", "icarMovementDepartureEventResource"),
        ["deaths"] = ("icarMovementDeathEventCollection", "icarMovementDeathEventResource"),
        ["treatments"] = ("icarTreatmentEventCollection", "icarTreatmentEventResource"),
        ["animals"] = ("icarAnimalCoreCollection", "icarAnimalCoreResource"),
        ["gestations"] = ("icarGestationCollection", "icarGestationResource"),
        ["repro-status-observations"] = ("icarReproStatusObservedEventCollection", "icarReproStatusObservedEventResource"),
        ["animal-sets"] = ("icarAnimalSetCollection", "icarAnimalSetResource"),
        ["mating-recommendations"] = ("icarReproMatingRecommendationCollection", "icarReproMatingRecommendationResource"),
    };

    public HerdClient Herd => herd;

    public static async Task<AdeHerd> Create(ApiHostFixture host) => new(host, await HerdClient.Create(host));

    /// <summary>A message with the least it needs.</summary>
    public static JsonObject Message(string noun, string sourceId, string animal, string when, string own = "{}", string scheme = "us.bovine")
    {
        var message = new JsonObject
        {
            ["resourceType"] = Nouns[noun].Message,
            ["meta"] = new JsonObject { ["source"] = "org.example.herd", ["sourceId"] = sourceId, ["modified"] = "2026-10-01T00:00:00Z" },
            [noun == "animals" ? "identifier" : "animal"] = new JsonObject { ["scheme"] = scheme, ["id"] = animal },
            ["eventDateTime"] = when,
        };
        foreach (var (key, value) in JsonNode.Parse(own)!.AsObject())
        {
            message[key] = value?.DeepClone();
        }

        return message;
    }

    public static JsonObject Service(string sourceId, string animal, string when = "2026-08-20T13:00:00Z", string own = """{"inseminationType":"Insemination"}""") =>
        Message("inseminations", sourceId, animal, when, own);

    public static JsonObject Check(string sourceId, string animal, string result = "Pregnant", string when = "2026-10-01T11:00:00Z", string method = "Blood") =>
        Message("pregnancy-checks", sourceId, animal, when, $$"""{"method":"{{method}}","result":"{{result}}"}""");

    /// <summary>One page.</summary>
    public async Task<JsonNode> Page(string noun, string query = "")
    {
        var answer = await herd.Get(query.StartsWith("http", StringComparison.Ordinal) ? "/" + new Uri(query).PathAndQuery : $"/{noun}{query}");
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        Assert.Equal("application/json", answer.MediaType);
        AdeSchemas.Page(answer.Json!, Nouns[noun].Collection, Nouns[noun].Message);
        var modified = answer["member"].AsArray().Select(m => Instants(m!["meta"]!["modified"])).ToArray();
        Assert.Equal(modified.Order(), modified);
        return answer.Json!;
    }

    /// <summary>Every page to the end.</summary>
    public async Task<IReadOnlyList<JsonNode>> All(string noun, string query = "")
    {
        var all = new List<JsonNode>();
        for (var next = query; ;)
        {
            var page = await Page(noun, next);
            all.AddRange(page["member"]!.AsArray().Select(m => m!));
            if (page["view"]!["next"] is not { } link)
            {
                return all;
            }

            next = (string)link!;
        }
    }

    /// <summary>Posts one message, which must be taken.</summary>
    public async Task<Answer> Post(string noun, JsonNode message, HttpStatusCode status = HttpStatusCode.OK)
    {
        var answer = await herd.Post($"/{noun}", message.ToJsonString());
        Assert.True(answer.Status == status, answer.Text);
        if (status == HttpStatusCode.OK)
        {
            AdeSchemas.Message(answer.Json!, Nouns[noun].Message);
        }
        else if ((int)status >= 400)
        {
            Assert.Equal("application/json", answer.MediaType);
            AdeSchemas.Errors(answer.Json, (int)status);
        }

        return answer;
    }

    /// <summary>Posts an array.</summary>
    public async Task<JsonArray> Batch(string noun, params JsonNode[] messages)
    {
        var answer = await herd.Post($"//batches{herd.Address}/{noun}", new JsonArray([.. messages.Select(m => m.DeepClone())]).ToJsonString());
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        return AdeSchemas.Results(answer.Json);
    }

    /// <summary>A request that must be refused in the standard's form.</summary>
    public static async Task<JsonArray> Refused(Task<Answer> asked, int status)
    {
        var answer = await asked;
        Assert.True((int)answer.Status == status, $"{answer.Status} {answer.Text}");
        Assert.Equal("application/json", answer.MediaType);
        AdeSchemas.Errors(answer.Json, status);
        return answer["errors"].AsArray();
    }

    public static Instant Instants(JsonNode? text) => InstantPattern.ExtendedIso.Parse((string)text!).Value;

    /// <summary>A second passes.</summary>
    public async Task<Instant> Tick()
    {
        var now = host.Services.GetRequiredService<HerdClock>().GetCurrentInstant() + Duration.FromSeconds(1);
        Assert.Equal(HttpStatusCode.OK, (await herd.Put("//testing/clock", $$"""{"now":"{{now}}"}""")).Status);
        return now;
    }

    public static string Encoded(Instant instant) => Uri.EscapeDataString(InstantPattern.ExtendedIso.Format(instant));
}
