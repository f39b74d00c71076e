using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.TestSupport;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>Rule S3: days keep the wall clock, hours elapse.</summary>
public sealed class StepTimeTests
{
    /// <summary>Clock changes, leap day, month and year end, a wall time that does not exist: to the minute, in the engine's own code.</summary>
    [SkippableFact]
    public void Dated_examples_are_reproduced_to_the_minute()
    {
        var path = CheckData.Find("protocol-calendars.json");
        Skip.If(path is null, "The dated examples are not beside this checkout.");
        using var document = JsonDocument.Parse(File.ReadAllText(path!));
        foreach (var example in document.RootElement.EnumerateArray())
        {
            string Text(string name) => example.GetProperty(name).GetString()!;
            var zone = DateTimeZoneProviders.Tzdb[Text("tz")];
            var rows = example.GetProperty("steps").EnumerateArray().Where(r => r.GetProperty("action").GetString() != "diagnosis").ToList();
            var event0 = OffsetDateTimePattern.Rfc3339.Parse(Text("start_local")).Value.LocalDateTime;
            var start = Text("start_event") == "previous AI" ? event0 + Period.FromDays(rows[0].GetProperty("day").GetInt32()) : event0;
            var protocol = ProtocolLibrary.All[Text("protocol_id")];

            var expected = rows.Select(r => OffsetDateTimePattern.Rfc3339.Parse(r.GetProperty("local").GetString()!).Value.LocalDateTime);
            var actual = protocol.Steps.Select(s => StepTimes.Planned(protocol, s, start, zone));
            Assert.Equal((Text("id"), string.Join(' ', expected)), (Text("id"), string.Join(' ', actual)));
        }
    }

    /// <summary>Law 9, at every clock change of every zone from 2026 to 2029.</summary>
    [Fact]
    public void Hour_intervals_are_exact_in_elapsed_time_in_every_zone()
    {
        var from = Instant.FromUtc(2026, 1, 1, 0, 0);
        var to = Instant.FromUtc(2029, 1, 1, 0, 0);
        var changes = 0;
        foreach (var id in DateTimeZoneProviders.Tzdb.Ids)
        {
            var zone = DateTimeZoneProviders.Tzdb[id];
            foreach (var interval in zone.GetZoneIntervals(from, to).Where(i => i.HasStart && i.Start >= from))
            {
                changes++;
                foreach (var hours in (int[])[6, 16, 24, 48, 56, 72])
                {
                    var step = new ProtocolStep("x", StepKind.Gnrh) { Hours = hours };
                    var anchor = (interval.Start - Duration.FromHours(hours / 2.0)).InZone(zone).LocalDateTime;
                    var after = StepTimes.After(anchor, step, zone);
                    var elapsed = zone.AtLeniently(after).ToInstant() - zone.AtLeniently(anchor).ToInstant();
                    // A wall time that occurs twice is taken at its first occurrence: then and only then it is short, by the overlap.
                    var twice = zone.MapLocal(after).Count == 2 && zone.MapLocal(after).First().ToInstant() != zone.AtLeniently(anchor).ToInstant() + Duration.FromHours(hours);
                    Assert.True(elapsed == Duration.FromHours(hours) || twice, $"{id} {anchor} + {hours} h = {after}, elapsed {elapsed}");
                }
            }
        }

        Assert.True(changes > 500);
    }

    /// <summary>Source: South Dakota State University Extension 2020: heifers start 12 April for breeding on 15 May.</summary>
    [Fact]
    public void Fourteen_day_insert_heifers_that_start_on_12_April_2020_are_inseminated_on_15_May()
    {
        var protocol = ProtocolLibrary.All["insert-14d-pg-beef-heifer"];
        var start = new LocalDateTime(2020, 4, 12, 14, 0);
        var zone = DateTimeZoneProviders.Tzdb["America/Chicago"];

        Assert.Equal(new LocalDate(2020, 4, 26), At(StepKind.InsertOut));
        Assert.Equal(new LocalDate(2020, 5, 12), At(StepKind.Pgf));
        Assert.Equal(new LocalDate(2020, 5, 15), At(StepKind.Inseminate));

        LocalDate At(StepKind kind) => StepTimes.Planned(protocol, protocol.Steps.First(s => s.Kind == kind), start, zone).Date;
    }

    [Fact]
    public void A_wall_time_that_occurs_twice_is_the_first_and_one_that_does_not_exist_moves_forward()
    {
        var chicago = DateTimeZoneProviders.Tzdb["America/Chicago"];
        Assert.Equal(Instant.FromUtc(2026, 11, 1, 6, 30), StepTimes.Resolve(new LocalDateTime(2026, 11, 1, 1, 30), chicago));
        var daily = new ProtocolStep("x", StepKind.Gnrh) { Days = 1 };
        Assert.Equal(new LocalDateTime(2026, 3, 8, 3, 30), StepTimes.After(new LocalDateTime(2026, 3, 7, 2, 30), daily, chicago));
    }
}
