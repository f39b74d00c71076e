using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Figures;

/// <summary>Figures over HTTP: honest of a few cows, drilled to the animals, refused by name.</summary>
public sealed class FigureTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const string Period = "from=2026-06-01&to=2026-10-05";

    // One pregnant, one open, one without an answer.
    private const string Cows = """
        [{"sourceId":"c-1","kind":"calving","animal":"1","date":"2026-06-01"},{"sourceId":"s-1","kind":"insemination","animal":"1","date":"2026-08-01","sire":"Birch","technician":"Mia"},
         {"sourceId":"c-2","kind":"calving","animal":"2","date":"2026-06-01"},{"sourceId":"s-2","kind":"insemination","animal":"2","date":"2026-08-01","sire":"Birch","technician":"Mia"},
         {"sourceId":"c-3","kind":"calving","animal":"3","date":"2026-06-01"},{"sourceId":"s-3","kind":"insemination","animal":"3","date":"2026-09-20","sire":"Elder"},
         {"sourceId":"e-1","kind":"examination","animal":"1","date":"2026-09-05","method":"ultrasound","outcome":"pregnant"},
         {"sourceId":"e-2","kind":"examination","animal":"2","date":"2026-09-05","method":"ultrasound","outcome":"open"}]
        """;

    private async Task<HerdClient> Herd(string facts = Cows)
    {
        var herd = await HerdClient.Create(host);
        if (facts.Length > 0)
        {
            await herd.Accept(facts);
        }

        return herd;
    }

    private static JsonNode Line(Answer answer, string figure, string line) => answer["figures"].AsArray()
        .Single(f => (string?)f!["figure"] == figure)!["lines"]!.AsArray().Single(l => (string?)l!["line"] == line)!;

    [Fact]
    public async Task A_value_has_its_numerator_denominator_interval_and_what_was_left_out()
    {
        var answer = await (await Herd()).Get($"/figures?{Period}");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        var line = Line(answer, "conception-risk", "all");
        Assert.Equal((1, 2, 0.5), ((int)line["numerator"]!, (int)line["denominator"]!, (double)line["value"]!));
        Assert.Equal((0.0945, 0.9055), (Math.Round((double)line["interval"]!["low"]!, 4), Math.Round((double)line["interval"]!["high"]!, 4)));
        var left = Assert.Single(line["leftOut"]!.AsArray())!;
        Assert.Equal(("no-answer-yet", 1), ((string?)left["reason"], (int)left["count"]!));
        Assert.Equal(2, (int)Line(answer, "conception-risk-by-sire", "Birch")["denominator"]!);
        Assert.NotEmpty(answer["cautions"].AsArray());
        Assert.Equal(2, (int)Line(answer, "conception-risk-by-technician", "Mia")["denominator"]!);
    }

    [Fact]
    public async Task Of_a_herd_without_animals_nothing_has_a_value_and_says_so()
    {
        var answer = await (await Herd("")).Get($"/figures?{Period}");
        var lines = answer["figures"].AsArray().SelectMany(f => f!["lines"]!.AsArray()).ToList();
        Assert.NotEmpty(lines);
        Assert.All(lines, l => Assert.True(l!["value"] is null && l["noValue"] is not null));
    }

    [Fact]
    public async Task The_animals_behind_a_line_with_the_facts_they_rest_on()
    {
        var herd = await Herd();
        var answer = await herd.Get($"/figures/conception-risk/animals?{Period}&line=all");
        Assert.Equal(["1 numerator", "2 denominator", "3 left-out"], answer["animals"].AsArray().Select(a => $"{a!["animal"]} {a["counts"]}"));
        Assert.All(answer["animals"].AsArray(), a => Assert.StartsWith("f_", (string?)a!["fact"], StringComparison.Ordinal));
        var csv = await herd.Get($"/figures/conception-risk/animals?{Period}&line=first", "text/csv");
        Assert.Equal("figure,line,animal,date,counts,reason,days,fact,caution", csv.Text.Split('\n')[0].TrimEnd());
        Assert.Equal(4, csv.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public async Task As_CSV_a_line_a_value_never_a_bare_percentage()
    {
        var answer = await (await Herd()).Get($"/figures?{Period}", "text/csv");
        Assert.Equal("text/csv", answer.MediaType);
        var lines = answer.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.StartsWith("figure,name,rule,line,label,unit,numerator,denominator,value", lines[0], StringComparison.Ordinal);
        Assert.Contains(lines, l => l.StartsWith("conception-risk,Conception risk,services,all,all services,share,1,2,0.5,", StringComparison.Ordinal) && l.Contains("1 no-answer-yet", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Unchanged_its_tag_stays_and_a_fact_changes_it()
    {
        var herd = await Herd();
        var first = await herd.Get($"/figures?{Period}");
        var tag = first.Headers.ETag!;
        Assert.Equal(tag, (await herd.Get($"/figures?{Period}")).Headers.ETag);
        await herd.Accept("""[{"sourceId":"d-3","kind":"departure","animal":"3","date":"2026-10-04","reason":"sold"}]""");
        Assert.NotEqual(tag, (await herd.Get($"/figures?{Period}")).Headers.ETag);
    }

    [Theory]
    [InlineData("/figures?from=2026-10-05&to=2026-10-01", "to")]
    [InlineData("/figures?from=2019-01-01&to=2026-10-01", "to")]
    [InlineData("/figures?from=soon", "from")]
    [InlineData("/figures?waitingPeriod=7", "waitingPeriod")]
    [InlineData("/figures?pen=4", "pen")]
    [InlineData("/figures/conception-risk/animals?line=best", "line")]
    public async Task What_is_not_allowed_is_refused_by_name(string path, string field)
    {
        var answer = await (await Herd("")).Get(path);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(field, (string?)answer["errors"][0]!["field"]);
    }

    [Fact]
    public async Task A_figure_that_does_not_exist_is_not_found() =>
        Assert.Equal(HttpStatusCode.NotFound, (await (await Herd("")).Get("/figures/luck/animals")).Status);
}
