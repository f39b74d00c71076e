using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using NodaTime.TimeZones;
using ReproLink.Calendar.Protocols;
using ReproLink.TestSupport;

namespace ReproLink.Calendar.Tests.Protocols;

/// <summary>The right unit on every interval shows only where the clock changes: days keep the wall clock, hours elapse (S3).</summary>
public sealed class DatedScheduleTests
{
    private static readonly ZoneLocalMappingResolver FirstOrForward =
        Resolvers.CreateMappingResolver(Resolvers.ReturnEarlier, Resolvers.ReturnForwardShifted);

    [SkippableFact]
    public void Dated_examples_fall_on_the_same_instants()
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

            var expected = rows.Select(r => r.GetProperty("utc").GetString()!);
            var actual = Dated(ProtocolLibrary.All[Text("protocol_id")], start.InZone(zone, FirstOrForward));
            Assert.Equal((Text("id"), string.Join(' ', expected)), (Text("id"), string.Join(' ', actual)));
        }
    }

    private static IEnumerable<string> Dated(Protocol protocol, ZonedDateTime start)
    {
        var times = new Dictionary<string, ZonedDateTime>();
        foreach (var step in protocol.Steps)
        {
            var from = step.Anchor is null ? start : times[step.Anchor];
            times[step.Id] = step.Days is { } days
                ? (from.LocalDateTime + Period.FromDays(days)).InZone(start.Zone, FirstOrForward)
                : from + Duration.FromHours(step.Hours!.Value);
            yield return InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm'Z'").Format(times[step.Id].ToInstant());
        }
    }
}
