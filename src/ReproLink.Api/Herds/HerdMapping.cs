using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Herds;

internal static class HerdMapping
{
    private const string AllowedZone = "a time zone of the IANA database, e.g. America/Chicago";
    private static readonly TextRule HerdName = new(200, false);

    public static (string Name, string TimeZone) Read(ObjectReader reader)
    {
        var name = reader.Text("name", HerdName, required: true);
        var zone = reader.Text("timeZone", TextRule.Name, required: true);
        // Listed ids only: the database also reads offsets, which know no summer time and are no herd's zone.
        if (zone is not null && !DateTimeZoneProviders.Tzdb.Ids.Contains(zone))
        {
            reader.Refuse("timeZone", ProblemTypes.InvalidValue, AllowedZone);
        }

        reader.Done();
        return (name ?? "", zone ?? "");
    }

    public static HerdAnswer Answer(HerdRequest request, (long Animals, long Facts) counts, bool hasProgramme) => new()
    {
        Location = new LocationAnswer { Scheme = request.Herd.Location.Scheme, Id = request.Herd.Location.Id },
        Name = request.Herd.Name,
        TimeZone = request.Herd.TimeZone,
        Today = request.Today.Date,
        Counts = new HerdCounts { Animals = counts.Animals, Facts = counts.Facts },
        Created = request.Herd.Created,
        Changed = request.Herd.Changed,
        Programme = ProgrammeNote.Of(hasProgramme),
    };
}
