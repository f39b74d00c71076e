using System.Text.Json;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Tests.HerdFiles;

public sealed class FactPropertiesTests
{
    private static readonly FactReader Reader = new(HerdRequest.Of(
        Caller.Local, new Herd(1, new LocationKey("a", "b"), "a", "Europe/London", default, default), Instant.FromUtc(2026, 10, 5, 12, 0)));

    [Fact]
    public void What_a_mapping_may_name_is_what_the_reader_of_facts_reads()
    {
        Assert.Equal(FactVocabulary.Kinds.Words.Where(k => k != "confirm").Order(StringComparer.Ordinal), FactProperties.Kinds);
        foreach (var kind in FactProperties.Kinds)
        {
            foreach (var property in FactCsv.Shape.Columns.Where(c => c is not ("source" or "kind" or "identifiers") && !c.Contains('.', StringComparison.Ordinal)))
            {
                Assert.True(FactProperties.Has(kind, property) == IsRead(kind, property), $"{kind} {property}");
            }
        }
    }

    private static bool IsRead(string kind, string property)
    {
        var problems = new FieldProblems();
        Reader.Read(new BatchItem(0, JsonSerializer.SerializeToElement(new Dictionary<string, string> { ["kind"] = kind, [property] = "x" }), null, null), problems);
        return !problems.List.Any(p => p.Type == ProblemTypes.UnknownProperty && p.Field == property);
    }
}
