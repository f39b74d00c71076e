using System.Text.Json.Nodes;
using Xunit.Sdk;

namespace ReproLink.Api.Tests.Exchange;

/// <summary>The net has no holes: each fault a message could have is caught.</summary>
public sealed class AdeSchemasTests
{
    private const string Good = """
        {"resourceType":"icarReproHeatEventResource","id":"1","meta":{"source":"a","sourceId":"b","modified":"2026-10-01T00:00:00Z"},
         "animal":{"scheme":"s","id":"1"},"eventDateTime":"2026-10-01T00:00:00Z","org.reprolink":{"anything":1}}
        """;

    [Fact]
    public void GoodMessage_Passes() => AdeSchemas.Message(JsonNode.Parse(Good)!, "icarReproHeatEventResource");

    [Theory]
    [InlineData("\"id\":\"1\",", "\"id\":1,")]
    [InlineData("\"id\":\"1\",\"meta\"", "\"id\":null,\"meta\"")]
    [InlineData("\"eventDateTime\"", "\"eventDatetime\"")]
    [InlineData("\"scheme\":\"s\",", "")]
    [InlineData("\"scheme\":\"s\"", "\"scheme\":\"s\",\"colour\":\"red\"")]
    [InlineData("\"modified\":", "\"changed\":")]
    [InlineData("\"eventDateTime\":\"2026-10-01T00:00:00Z\"", "\"eventDateTime\":\"2026-10-01T00:00:00\"")]
    [InlineData("\"eventDateTime\":\"2026-10-01T00:00:00Z\"", "\"eventDateTime\":\"2026-10-01T00:00:00+02:00\"")]
    [InlineData("icarReproHeatEventResource", "icarReproHeatEvent")]
    public void AnyFault_IsCaught(string right, string wrong)
    {
        Assert.Contains(right, Good, StringComparison.Ordinal);
        Assert.ThrowsAny<XunitException>(() => AdeSchemas.Message(JsonNode.Parse(Good.Replace(right, wrong, StringComparison.Ordinal))!, "icarReproHeatEventResource"));
    }
}
