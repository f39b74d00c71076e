using System.Text.Json;
using ReproLink.Calendar.Protocols;
using ReproLink.TestSupport;

namespace ReproLink.Calendar.Tests.Protocols;

/// <summary>The definitions against the independent table of published schedules.</summary>
public sealed class PublishedScheduleTests
{
    /// <summary>Inseminated on observed oestrus only: its last published row is no timed step.</summary>
    private const string OestrusOnly = "pgf-14d-heifer";

    private static readonly Dictionary<string, StepKind> Kinds = new()
    {
        ["gnrh"] = StepKind.Gnrh,
        ["pgf"] = StepKind.Pgf,
        ["insert-in"] = StepKind.InsertIn,
        ["insert-out"] = StepKind.InsertOut,
        ["ai"] = StepKind.Inseminate,
        ["detect-oestrus"] = StepKind.WatchOestrus,
    };

    [SkippableFact]
    public void Every_published_protocol_is_there_and_no_other()
    {
        var published = Published().Select(p => p.GetProperty("id").GetString()!).Order(StringComparer.Ordinal);

        Assert.Equal(published, ProtocolLibrary.All.Keys);
    }

    [SkippableFact]
    public void Every_step_falls_on_its_published_hour_and_day()
    {
        foreach (var published in Published())
        {
            var rows = Rows(published).ToList();
            var protocol = ProtocolLibrary.All[published.GetProperty("id").GetString()!];
            var clock = int.Parse(published.GetProperty("recommended_start_clock").GetString()![..2], null);
            var (firstDay, firstHour) = (rows[0].GetProperty("day").GetInt32(), rows[0].GetProperty("hours_from_start").GetInt32());

            Assert.Equal(
                rows.Select(r => (protocol.Id, Kinds[r.GetProperty("action").GetString()!], r.GetProperty("day").GetInt32() - firstDay)),
                protocol.Steps.Select(s => (protocol.Id, s.Kind, (clock + protocol.HoursFromStart(s)) / 24)));
            foreach (var (row, step) in rows.Zip(protocol.Steps))
            {
                if (row.GetProperty("hours_from_start") is { ValueKind: JsonValueKind.Number } hours)
                    Assert.Equal((protocol.Id, step.Id, hours.GetInt32() - firstHour), (protocol.Id, step.Id, protocol.HoursFromStart(step)));
            }
        }
    }

    [SkippableFact]
    public void A_step_is_gated_exactly_where_the_publication_requires_open()
    {
        foreach (var published in Published())
        {
            var protocol = ProtocolLibrary.All[published.GetProperty("id").GetString()!];

            Assert.Equal(
                Rows(published).Select(r => r.GetProperty("requires").GetString() == "open"),
                protocol.Steps.Select(s => s.Gated));
        }
    }

    [SkippableFact]
    public void Class_use_session_start_and_evidence_are_the_published_ones()
    {
        foreach (var published in Published())
        {
            string Text(string name) => published.GetProperty(name).GetString()!;
            var protocol = ProtocolLibrary.All[Text("id")];
            var resynchronisation = Text("kind") == "resynch";

            Assert.Equal(Text("animal_class").Replace("-", "", StringComparison.Ordinal), protocol.Class.ToString(), ignoreCase: true);
            Assert.Equal(resynchronisation ? "resynchronisation" : Text("kind").Replace("-", "", StringComparison.Ordinal), protocol.Use.ToString(), ignoreCase: true);
            Assert.Equal(Text("recommended_start_clock") == "08:00" ? Session.Morning : Session.Afternoon, protocol.StartSession);
            Assert.Equal(resynchronisation ? Rows(published).First().GetProperty("day").GetInt32() : null, protocol.Start?.Day);
            Assert.Equal(Text("seen").Replace(" ", "", StringComparison.Ordinal), protocol.Evidence.ToString(), ignoreCase: true);
            Assert.Equal(Text("doi"), protocol.Doi ?? "");
        }
    }

    /// <summary>A diagnosis is no step of ours; what follows it is gated instead.</summary>
    private static IEnumerable<JsonElement> Rows(JsonElement published) =>
        published.GetProperty("steps").EnumerateArray()
            .Where(r => r.GetProperty("action").GetString() != "diagnosis")
            .Where(r => published.GetProperty("id").GetString() != OestrusOnly || r.GetProperty("action").GetString() != "ai");

    private static JsonElement[] Published()
    {
        var path = CheckData.Find("protocols.json");
        Skip.If(path is null, "The table of published schedules is not beside this checkout.");
        using var document = JsonDocument.Parse(File.ReadAllText(path!));
        return [.. document.RootElement.Clone().EnumerateArray()];
    }
}
