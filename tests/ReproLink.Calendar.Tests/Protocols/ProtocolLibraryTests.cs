using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Tests.Protocols;

public sealed class ProtocolLibraryTests
{
    [Fact]
    public void There_are_58_protocols_in_the_order_of_their_ids()
    {
        Assert.Equal(58, ProtocolLibrary.All.Count);
        Assert.Equal(ProtocolLibrary.All.Keys.Order(StringComparer.Ordinal), ProtocolLibrary.All.Keys);
        Assert.All(ProtocolLibrary.All, entry => Assert.Equal(entry.Key, entry.Value.Id));
    }

    [Fact]
    public void Find_UnknownOrAbsent_IsNull()
    {
        Assert.Null(ProtocolLibrary.Find("ovsynch-57"));
        Assert.Null(ProtocolLibrary.Find(null));
        Assert.Equal("ovsynch-56", ProtocolLibrary.Find("ovsynch-56")?.Id);
    }

    [Fact]
    public void Ovsynch56_is_gnrh_7_days_pgf_56_hours_gnrh_16_hours_inseminate()
    {
        ProtocolStep[] expected =
        [
            new("gnrh-1", StepKind.Gnrh) { Days = 0, EarlyHours = 72, LateHours = 72 },
            new("pgf-1", StepKind.Pgf) { Anchor = "gnrh-1", Days = 7, Gated = true, EarlyHours = 24, LateHours = 24 },
            new("gnrh-2", StepKind.Gnrh) { Anchor = "pgf-1", Hours = 56, Gated = true, EarlyHours = 8, LateHours = 4 },
            new("inseminate", StepKind.Inseminate) { Anchor = "gnrh-2", Hours = 16, Gated = true, EarlyHours = 4, LateHours = 8 },
        ];

        Assert.Equal(expected, ProtocolLibrary.All["ovsynch-56"].Steps);
    }

    [Theory]
    [InlineData("ovsynch-56-2pgf", "gnrh-2", "pgf-1", 56)]
    [InlineData("double-ovsynch-56-2pgf", "gnrh-4", "pgf-2", 56)]
    [InlineData("presynch-14-ovsynch-56", "gnrh-2", "pgf-3", 56)]
    [InlineData("cosynch-5d-insert-dairy-heifer", "gnrh-2", "pgf-1", 72)]
    [InlineData("cosynch-5d-insert-beef-cow", "inseminate", "pgf-1", 72)]
    [InlineData("pg6-insert-beef-cow", "gnrh-2", "pgf-2", 72)]
    [InlineData("p4-ovsynch-8d-seasonal", "gnrh-2", "pgf-1", 60)]
    public void The_last_steps_are_counted_from_the_first_breeding_prostaglandin(string id, string step, string anchor, int hours)
    {
        var found = ProtocolLibrary.All[id].Steps.Single(s => s.Id == step);

        Assert.Equal((anchor, hours), (found.Anchor, found.Hours));
    }

    [Theory]
    [InlineData("cosynch-7d-insert-beef-cow", "inseminate", 60, 66)]
    [InlineData("cosynch-5d-insert-nognrh-dairy-heifer", "inseminate", 53, 60)]
    [InlineData("cosynch-5d-insert-beef-heifer", "inseminate", 56, 64)]
    [InlineData("select-synch-tai-beef-cow", "inseminate", 72, 84)]
    [InlineData("ovsynch-56", "gnrh-2", 48, 60)]
    [InlineData("ovsynch-48-beef", "inseminate", 16, 20)]
    [InlineData("pgf-14d-heifer", "watch-1", 24, 144)]
    public void A_published_range_is_kept_around_the_planned_interval(string id, string step, int from, int to)
    {
        var found = ProtocolLibrary.All[id].Steps.Single(s => s.Id == step);

        Assert.Equal((from, to), (found.Hours - found.EarlyHours, found.Hours + found.LateHours));
    }

    /// <summary>A removal that hung on a withheld prostaglandin would leave the insert in (S4).</summary>
    [Fact]
    public void Insert_out_is_counted_in_days_from_its_own_insert_in()
    {
        foreach (var protocol in ProtocolLibrary.All.Values)
        {
            foreach (var removal in protocol.Steps.Where(s => s.Kind == StepKind.InsertOut))
            {
                Assert.False(removal.Gated);
                Assert.NotNull(removal.Days);
                Assert.Equal(StepKind.InsertIn, protocol.Steps.Single(s => s.Id == removal.Anchor).Kind);
            }
        }
    }

    [Fact]
    public void Every_prostaglandin_and_insemination_is_gated()
    {
        var open = from protocol in ProtocolLibrary.All.Values
                   from step in protocol.Steps
                   where step.Kind is StepKind.Pgf or StepKind.Inseminate && !step.Gated
                   select $"{protocol.Id}/{step.Id}";

        Assert.Empty(open);
    }

    /// <summary>Rule S1 lets a programme start before the result only when nothing but GnRH and inserts comes before the gate.</summary>
    [Fact]
    public void Recipes_that_start_before_the_result_may_do_so()
    {
        var refused = ProtocolLibrary.All.Values
            .Where(p => p.Start?.Rule == StartRule.BeforeResult && !p.MayStartBeforeResult)
            .Select(p => p.Id);

        Assert.Empty(refused);
    }

    [Fact]
    public void Only_resynchronisation_recipes_bring_their_start()
    {
        var withStart = ProtocolLibrary.All.Values.Where(p => p.Start is not null).ToList();

        Assert.Equal(22, withStart.Count);
        Assert.All(withStart, p => Assert.Equal(ProtocolUse.Resynchronisation, p.Use));
        Assert.All(ProtocolLibrary.All.Values.Except(withStart), p => Assert.NotEqual(ProtocolUse.Resynchronisation, p.Use));
        Assert.Equal(new ResynchronisationStart(StartRule.BeforeResult, 25), ProtocolLibrary.All["resynch-25"].Start);
        Assert.Equal(new ResynchronisationStart(StartRule.AtResult, 32), ProtocolLibrary.All["short-resynch-cl"].Start);
    }

    [Fact]
    public void A_schedule_from_memory_is_listed_but_cannot_be_selected()
    {
        Assert.Equal(13, ProtocolLibrary.All.Values.Count(p => !p.IsSelectable));
        Assert.False(ProtocolLibrary.All["g6g-ovsynch-56"].IsSelectable);
        Assert.True(ProtocolLibrary.All["double-ovsynch-56-2pgf"].IsSelectable);
    }

    [Fact]
    public void Only_branches_published_for_a_corpus_luteum_need_one()
    {
        var needing = from protocol in ProtocolLibrary.All.Values
                      from step in protocol.Steps
                      where step.NeedsCorpusLuteum
                      select $"{protocol.Id}/{step.Id}";

        Assert.Equal(
            ["ovsynch-48-beef/pgf-1", "pgf-cl-heat-then-resynch/pgf-1", "pgf-single-cl/pgf-1", "short-resynch-cl/pgf-1", "short-resynch-cl/pgf-2"],
            needing);
    }

    /// <summary>The agent class stands here; product and dose stand on the veterinarian's order (S8).</summary>
    [Fact]
    public void No_text_names_an_active_substance_or_a_dose()
    {
        var texts = ProtocolLibrary.All.Values.Select(p => string.Join(' ', p.Name, p.Source, p.EvidenceDetail, p.Notes));

        Assert.All(texts, text => Assert.DoesNotMatch(@"(?i)gonadorelin|buserelin|dinoprost|cloprostenol|\d\s*(mg|ug|µg|ml)\b", text));
    }
}
