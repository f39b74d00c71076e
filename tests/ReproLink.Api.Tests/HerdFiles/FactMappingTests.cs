using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using ReproLink.Api.Facts;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.HerdFiles;

public sealed class FactMappingTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    /// <summary>A line an animal, with the last of everything.</summary>
    private const string Animals = """
        {"columns":{"animal":"Cow"},
         "facts":[{"kind":"animal","columns":{"born":"Born","breed":"Breed","parity":"Calvings","pen":"Pen","identifiers.us.bovine":"Ear tag"},"words":{"breed":{"HO":"Holstein"}}},
                  {"kind":"calving","columns":{"date":"Last calving"}},
                  {"kind":"insemination","columns":{"date":"Last service","sire":"Bull"}},
                  {"kind":"dry-off","columns":{"date":"Dry"}}],
         "empty":["-"],"dates":["dd/MM/yyyy"],"decimal":",","delimiter":";"}
        """;

    private const string AnimalsFile = """
        Cow;Ear tag;Born;Breed;Calvings;Pen;Last calving;Last service;Bull;Dry;Milk
        1042;840003123456789;01/03/2022; ho ;2,0;4;01/07/2026;10/09/2026 08:15;B77;-;31,4
        1043;;;;;;15/06/2026;;;;
        1044;;;;;;-;-;;-;
        """;

    [Fact]
    public async Task A_word_nobody_explained_is_refused_for_it_may_be_a_service()
    {
        var herd = await Mapped("""{"columns":{"animal":"Cow","date":"Day"},"eventColumn":"What","facts":[{"events":["Calved"],"kind":"calving"}],"leaveOut":["Hoof trim"]}""");
        var answer = await herd.Post("/facts?sender=book", "Cow,Day,What\n1,2026-06-01, calved \n1,2026-09-01,Covered\n1,2026-09-02,\n1,2026-09-03,HOOF  TRIM\n", "text/csv");
        Assert.Equal(["accepted", "rejected", "rejected"], answer.Results.Select(r => (string?)r!["status"]));
        Assert.Equal([2, 3, 4], answer.Results.Select(r => (int)r!["line"]!));
        Assert.Equal("Line 3: 'What' is \"Covered\"; allowed: a word under 'events' or 'leaveOut' of the mapping.", (string?)answer.Results[1]!["problem"]!["detail"]);
        var left = Assert.Single(answer["leftOut"].AsArray())!;
        Assert.Equal("5 | 1,2026-09-03,HOOF  TRIM | The mapping leaves out 'HOOF  TRIM'.", $"{left["line"]} | {left["text"]} | {left["reason"]}");
    }

    [Fact]
    public async Task A_line_an_animal_gives_several_facts_and_what_is_not_read_is_told()
    {
        var herd = await Mapped(Animals);
        var preview = await herd.Post("/facts/preview?sender=book", AnimalsFile, "text/csv");
        Assert.True(preview.Status == HttpStatusCode.OK, preview.Text);
        Assert.Equal("""{"received":4,"accepted":4,"replaced":0,"duplicate":0,"rejected":0,"linesLeftOut":1}""", preview["counts"].ToJsonString());
        Assert.Equal("""["Milk"]""", preview["unreadColumns"].ToJsonString());
        Assert.Equal("None of the columns read says anything.", (string?)preview["leftOut"][0]!["reason"]);
        Assert.Equal(
            """{"animal":"1042","born":"2022-03-01","breed":"Holstein","kind":"animal","parity":2,"pen":"4","identifiers":[{"scheme":"us.bovine","id":"840003123456789"}]}""",
            Without(preview["facts"][0]!["read"]!));
        Assert.Equal("""{"animal":"1042","date":"2026-09-10","kind":"insemination","sire":"B77","time":"08:15"}""", Without(preview["facts"][2]!["read"]!));
        Assert.Empty((await herd.Get("/facts"))["facts"].AsArray());

        var answer = await herd.Post("/facts?sender=book", AnimalsFile, "text/csv");
        Assert.Equal(preview["facts"].AsArray().Select(f => (string?)f!["result"]!["status"]), answer.Results.Select(r => (string?)r!["status"]));
        Assert.Equal([2, 2, 2, 3], answer.Results.Select(r => (int)r!["line"]!));
        var stored = (await herd.Get("/facts"))["facts"].AsArray();
        Assert.All(stored, f => Assert.Equal("book", (string?)f!["source"]));
    }

    [Fact]
    public async Task The_same_file_again_is_duplicates_and_next_months_file_keeps_what_happened_before()
    {
        var herd = await Mapped(Animals);
        await herd.Post("/facts?sender=book", AnimalsFile, "text/csv");
        var again = await herd.Post("/facts?sender=book", AnimalsFile, "text/csv");
        Assert.All(again.Results, r => Assert.Equal("duplicate", (string?)r!["status"]));
        // She was moved and served again: her card is replaced, the first service stands.
        var later = AnimalsFile.Replace(";4;", ";7;", StringComparison.Ordinal).Replace("10/09/2026 08:15", "01/10/2026", StringComparison.Ordinal);
        var preview = await herd.Post("/facts/preview?sender=book", later, "text/csv");
        Assert.Equal(["replaced", "duplicate", "accepted", "duplicate"], preview["facts"].AsArray().Select(f => (string?)f!["result"]!["status"]));
        await herd.Post("/facts?sender=book", later, "text/csv");
        var facts = (await herd.Get("/facts?animal=1042"))["facts"].AsArray();
        Assert.Equal(2, facts.Count(f => (string?)f!["kind"] == "insemination"));
        Assert.Equal("7", (string?)facts.Single(f => (string?)f!["kind"] == "animal")!["pen"]);
    }

    [Fact]
    public async Task Findings_that_disagree_are_two_facts_and_never_a_silent_correction()
    {
        const string Mapping = """
            {"columns":{"animal":"Cow","date":"Day"},"eventColumn":"What","facts":[{"events":["Scan"],"kind":"examination","columns":{"outcome":"Detail"},
             "fixed":{"method":"ultrasound"},"words":{"outcome":{"empty":"open","in calf":"pregnant"}}}]}
            """;
        var herd = await Mapped(Mapping);
        await herd.Post("/facts?sender=book", "Cow,Day,What,Detail\n1,2026-09-20,Scan,Empty\n", "text/csv");
        var answer = await herd.Post("/facts?sender=book", "Cow,Day,What,Detail\n1,2026-09-20,Scan,In  calf\n", "text/csv");
        Assert.Equal("accepted", (string?)answer.Results[0]!["status"]);
        Assert.Equal(2, (await herd.Get("/facts"))["facts"].AsArray().Count);
    }

    [Fact]
    public async Task An_id_column_lets_a_corrected_line_replace_the_earlier_one()
    {
        var herd = await Mapped("""{"columns":{"animal":"Cow","date":"Day","sourceId":"No"},"eventColumn":"What","facts":[{"events":["Calved"],"kind":"calving"}]}""");
        await herd.Post("/facts?sender=book", "No,Cow,Day,What\n7,1,2026-06-01,Calved\n", "text/csv");
        var corrected = await herd.Post("/facts?sender=book", "No,Cow,Day,What\n7,1,2026-06-02,Calved\n", "text/csv");
        Assert.Equal("replaced", (string?)corrected.Results[0]!["status"]);
    }

    [Theory]
    [InlineData("utf-8", false)]
    [InlineData("utf-8", true)]
    [InlineData("utf-16", false)]
    [InlineData("utf-16", true)]
    [InlineData("windows-1252", false)]
    public async Task Letters_are_read_as_they_were_written(string letters, bool mark)
    {
        var herd = await Mapped($$"""{"columns":{"animal":"Kuh","date":"Tag"},"facts":[{"kind":"oestrus"}],"letters":"{{letters}}"}""");
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        var encoding = letters switch { "utf-16" => Encoding.Unicode, "windows-1252" => Encoding.GetEncoding(1252), _ => (Encoding)new UTF8Encoding(true) };
        byte[] file = [.. mark ? encoding.GetPreamble() : [], .. encoding.GetBytes("Kuh,Tag\nÖhrmärke,2026-10-01\n")];
        using var client = host.CreateClient();
        using var content = new ByteArrayContent(file);
        content.Headers.ContentType = new MediaTypeHeaderValue("text/csv");
        using var answer = await client.PostAsync($"{herd.Address}/facts?sender=book", content);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("Öhrmärke", (string?)(await herd.Get("/facts"))["facts"][0]!["animal"]);
    }

    [Fact]
    public async Task Letters_that_are_others_than_the_mapping_says_store_nothing()
    {
        var herd = await Mapped("""{"columns":{"animal":"Kuh","date":"Tag"},"facts":[{"kind":"oestrus"}]}""");
        using var client = host.CreateClient();
        using var content = new ByteArrayContent([.. Encoding.Latin1.GetBytes("Kuh,Tag\nÖhr,2026-10-01\n")]);
        content.Headers.ContentType = new MediaTypeHeaderValue("text/csv");
        using var answer = await client.PostAsync($"{herd.Address}/facts?sender=book", content);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("letters", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Cow;Last calving\n", "errors")]
    [InlineData("", "detail")]
    [InlineData("Cow;Cow;Ear tag;Born;Breed;Calvings;Pen;Last calving;Last service;Bull;Dry\n", "errors")]
    [InlineData("Cow;\"Ear tag\n", "detail")]
    public async Task A_file_with_other_headings_stores_nothing(string file, string said)
    {
        var herd = await Mapped(Animals);
        var answer = await herd.Post("/facts?sender=book", file, "text/csv");
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.NotNull(answer.Json![said]);
        Assert.Equal(HttpStatusCode.NotFound, (await herd.Post("/facts?sender=other", file, "text/csv")).Status);
    }

    [Theory]
    [InlineData("""{}""", "/columns")]
    [InlineData("""{"columns":{"date":"D"},"facts":[{"kind":"calving"}]}""", "/columns")]
    [InlineData("""{"columns":{"animal":"A","sire":"S"},"facts":[{"kind":"calving"}]}""", "/columns/sire")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[]}""", "/facts")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"calve"}]}""", "/facts/0/kind")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"confirm"}]}""", "/facts/0/kind")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"calving","columns":{"sire":"S"}}]}""", "/facts/0/columns/sire")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"treatment","fixed":{"agent":"other"}}]}""", "/facts/0/fixed/agent")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"calving","events":["C"]}]}""", "/facts/0/events")]
    [InlineData("""{"columns":{"animal":"A"},"eventColumn":"E","facts":[{"kind":"calving"}]}""", "/facts/0/events")]
    [InlineData("""{"columns":{"animal":"A"},"eventColumn":"E","facts":[{"kind":"calving","events":["C"]}],"leaveOut":["c"]}""", "/leaveOut")]
    [InlineData("""{"columns":{"animal":"A","sourceId":"N"},"facts":[{"kind":"calving"},{"kind":"dry-off"}]}""", "/columns")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"examination","words":{"outcome":{"x":"maybe"}}}]}""", "/facts/0/words/outcome/x")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"calving","words":{"sire":{"x":"y"}}}]}""", "/facts/0/words/sire")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"calving"}],"letters":"ebcdic"}""", "/letters")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"calving"}],"dates":["MM/yyyy"]}""", "/dates/0")]
    [InlineData("""{"columns":{"animal":"A"},"facts":[{"kind":"calving","colour":1}]}""", "/facts/0/colour")]
    public async Task Put_WhatIsWrong_IsNamed(string mapping, string field)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("/fact-mappings/book", mapping);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Contains(field, answer["errors"].AsArray().Select(e => (string?)e!["field"]));
        Assert.Equal(HttpStatusCode.NotFound, (await herd.Get("/fact-mappings/book")).Status);
    }

    [Fact]
    public async Task Get_AnswersWhatWasSaved()
    {
        var herd = await HerdClient.Create(host);
        var saved = await herd.Put("/fact-mappings/book", FactMappingEndpoints.Example);
        Assert.True(saved.Status == HttpStatusCode.OK, saved.Text);
        var got = await herd.Get("/fact-mappings/book");
        Assert.Equal(saved.Text, got.Text);
        foreach (var (name, value) in JsonNode.Parse(FactMappingEndpoints.Example)!.AsObject())
        {
            Assert.True(JsonNode.DeepEquals(value, got.Json![name]), name);
        }

        Assert.Equal(1, (int)(await herd.Put("/fact-mappings/book", FactMappingEndpoints.Example))["version"]);
    }

    private async Task<HerdClient> Mapped(string mapping)
    {
        var herd = await HerdClient.Create(host);
        var saved = await herd.Put("/fact-mappings/book", mapping);
        Assert.True(saved.Status == HttpStatusCode.OK, saved.Text);
        return herd;
    }

    private static string Without(JsonNode read)
    {
        var copy = read.DeepClone().AsObject();
        copy.Remove("source");
        copy.Remove("sourceId");
        return copy.ToJsonString();
    }
}
