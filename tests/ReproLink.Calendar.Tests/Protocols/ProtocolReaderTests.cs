using System.Text.Json.Nodes;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Tests.Protocols;

public sealed class ProtocolReaderTests
{
    private const string Good = """
        {
          "schema": 1,
          "id": "own-1",
          "name": "A herd's own",
          "animalClass": "dairy-cow",
          "use": "resynchronisation",
          "start": { "rule": "before-result", "day": 25 },
          "source": "Herd order of the veterinarian",
          "evidence": "common-practice",
          "steps": [
            { "id": "gnrh-1", "kind": "gnrh", "days": 0, "earlyHours": 72, "lateHours": 72 },
            { "id": "insert-in", "kind": "insert-in", "anchor": "gnrh-1", "hours": 0, "earlyHours": 72, "lateHours": 72 },
            { "id": "insert-out", "kind": "insert-out", "anchor": "insert-in", "days": 7, "earlyHours": 0, "lateHours": 24 },
            { "id": "pgf-1", "kind": "pgf", "anchor": "insert-out", "hours": 0, "gated": true, "earlyHours": 24, "lateHours": 24 },
            { "id": "gnrh-2", "kind": "gnrh", "anchor": "pgf-1", "hours": 56, "gated": true, "earlyHours": 8, "lateHours": 16 },
            { "id": "inseminate", "kind": "inseminate", "anchor": "gnrh-2", "hours": 16, "gated": true, "earlyHours": 8, "lateHours": 8 }
          ]
        }
        """;

    [Fact]
    public void Read_Good_GivesTheProtocol()
    {
        var protocol = ProtocolReader.Read("own-1.json", Good);

        Assert.Equal(6, protocol.Steps.Length);
        Assert.Equal("pgf-1", protocol.FirstGated?.Id);
        Assert.Equal(7 * 24 + 56 + 16, protocol.HoursFromStart(protocol.Steps[^1]));
        Assert.True(protocol.MayStartBeforeResult);
    }

    /// <summary>One line of the good definition broken at a time.</summary>
    [Theory]
    [InlineData("\"gated\": true, \"earlyHours\": 24", "\"gated\": false, \"earlyHours\": 24", "step 'pgf-1': pgf must be gated")]
    [InlineData("\"gated\": true, \"earlyHours\": 24", "\"earlyHours\": 24", "step 'pgf-1': pgf must be gated")]
    [InlineData("\"hours\": 16, \"gated\": true", "\"hours\": 16", "step 'inseminate': inseminate must be gated")]
    [InlineData("\"days\": 7,", "\"days\": 7, \"gated\": true,", "step 'insert-out': insert-out must not be gated")]
    [InlineData("\"gated\": true, \"earlyHours\": 24", "\"gatd\": true, \"earlyHours\": 24", "step 4: unknown property 'gatd'")]
    [InlineData("\"schema\": 1,", "\"schema\": 1, \"dose\": 5,", "unknown property 'dose'")]
    [InlineData("\"day\": 25", "\"day\": 25, \"weekday\": 1", "start: unknown property 'weekday'")]
    [InlineData("\"source\": \"Herd order of the veterinarian\",", "", "source is missing")]
    [InlineData("Herd order of the veterinarian", " ", "source must be a text that is not empty")]
    [InlineData("\"id\": \"gnrh-2\"", "\"id\": \"gnrh-1\"", "duplicate step id 'gnrh-1'")]
    [InlineData("\"anchor\": \"pgf-1\"", "\"anchor\": \"pgf-9\"", "step 'gnrh-2': unknown anchor 'pgf-9'")]
    [InlineData("\"anchor\": \"insert-out\"", "\"anchor\": \"inseminate\"", "step 'pgf-1': anchor 'inseminate' does not come before the step")]
    [InlineData("\"anchor\": \"insert-out\"", "\"anchor\": \"pgf-1\"", "step 'pgf-1': anchor 'pgf-1' does not come before the step")]
    [InlineData("\"hours\": 56", "\"hours\": 56, \"days\": 2", "step 'gnrh-2': both days and hours are given")]
    [InlineData("\"hours\": 56, ", "", "step 'gnrh-2': neither days nor hours is given")]
    [InlineData("\"hours\": 56", "\"hours\": -56", "step 'gnrh-2': negative interval")]
    [InlineData("\"days\": 7", "\"days\": 90000000", "step 'insert-out': interval is longer than 365 days")]
    [InlineData("\"hours\": 56", "\"hours\": 56.5", "step 5: hours must be a whole number")]
    [InlineData("\"anchor\": \"gnrh-2\", \"hours\": 16", "\"anchor\": \"pgf-1\", \"hours\": 16", "step 'inseminate': out of order")]
    [InlineData("\"kind\": \"gnrh\", \"days\": 0", "\"kind\": \"gnrh\", \"days\": 1", "step 'gnrh-1': the first step must be at the start")]
    [InlineData("\"earlyHours\": 0", "\"earlyHours\": -1", "step 'insert-out': negative tolerance")]
    [InlineData("\"earlyHours\": 0, ", "", "step 3: earlyHours is missing")]
    [InlineData("\"kind\": \"insert-out\"", "\"kind\": \"gnrh\"", "step 'insert-in': insert-in without insert-out")]
    [InlineData("\"kind\": \"insert-in\"", "\"kind\": \"gnrh\"", "step 'insert-out': insert-out without insert-in")]
    [InlineData("\"kind\": \"inseminate\"", "\"kind\": \"gnrh\"", "neither inseminate nor watch-oestrus")]
    [InlineData("\"kind\": \"gnrh\", \"days\": 0,", "\"kind\": \"gnrh\", \"days\": 0, \"gated\": true,", "before-result, but the first step is gated")]
    [InlineData(", \"day\": 25", "", "start: before-result needs a day")]
    [InlineData("before-result", "before", "start: rule is 'before', allowed are before-result, at-result")]
    [InlineData("\"kind\": \"inseminate\"", "\"kind\": \"ai\"", "step 6: kind is 'ai', allowed are gnrh, pgf, insert-in, insert-out, inseminate, watch-oestrus")]
    [InlineData("\"hours\": 56", "\"hours\": 56, \"ifLate\": \"alternative\"", "step 'gnrh-2': ifLate is 'alternative'")]
    [InlineData("\"schema\": 1", "\"schema\": 2", "schema is 2, allowed is 1")]
    [InlineData("\"id\": \"own-1\"", "\"id\": \"own-2\"", "file name is 'own-1.json', allowed is 'own-2.json'")]
    [InlineData("\"id\": \"gnrh-2\"", "\"id\": \"GnRH 2\"", "step 'GnRH 2': id must be lower-case words joined by hyphens")]
    [InlineData("\"schema\": 1,", "\"schema\": 1, \"schema\": 1,", "not valid JSON")]
    [InlineData("\"schema\": 1,", "\"schema\": 1", "not valid JSON")]
    public void Read_Broken_SaysWhy(string good, string broken, string reason)
    {
        var at = Good.IndexOf(good, StringComparison.Ordinal);
        Assert.True(at >= 0, "The line to break is not in the good definition.");

        var error = Assert.Throws<ProtocolDefinitionException>(
            () => ProtocolReader.Read("own-1.json", Good[..at] + broken + Good[(at + good.Length)..]));

        Assert.Contains(reason, error.Reason, StringComparison.Ordinal);
        Assert.Equal("own-1.json", error.File);
    }

    [Fact]
    public void Read_Broken_NamesFileProtocolAndReason()
    {
        var error = Assert.Throws<ProtocolDefinitionException>(() => ProtocolReader.Read("mine.json", Good));

        Assert.Equal("own-1", error.Protocol);
        Assert.Equal("mine.json: protocol 'own-1': file name is 'mine.json', allowed is 'own-1.json'", error.Message);
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("""{ "schema": 1, "id": "own-1", "name": "x", "animalClass": "any", "use": "either", "source": "x", "evidence": "seen", "steps": [] }""")]
    [InlineData("""{ "schema": 1, "id": "own-1", "name": "x", "animalClass": "any", "use": "either", "source": "x", "evidence": "seen", "steps": [7] }""")]
    public void Read_NoProtocolAtAll_IsRefused(string json) =>
        Assert.Throws<ProtocolDefinitionException>(() => ProtocolReader.Read("own-1.json", json));

    [Fact]
    public void Read_SeveralProblems_NamesThemAll()
    {
        var broken = JsonNode.Parse(Good)!;
        broken["steps"]![3]!["gated"] = false;
        broken["steps"]![4]!["hours"] = -1;

        var error = Assert.Throws<ProtocolDefinitionException>(() => ProtocolReader.Read("own-1.json", broken.ToJsonString()));

        Assert.Equal("step 'pgf-1': pgf must be gated (S4); step 'gnrh-2': negative interval", error.Reason);
    }
}
