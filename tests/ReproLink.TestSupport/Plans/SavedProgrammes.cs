using NodaTime;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;

namespace ReproLink.TestSupport.Plans;

/// <summary>Herds with one saved programme, approved or not.</summary>
public static class SavedProgrammes
{
    /// <summary>When the programme was saved and approved.</summary>
    public static readonly Instant Saved = Instant.FromUtc(2020, 1, 1, 12, 0);

    /// <summary>The default programme with a change, approved without end.</summary>
    public static HerdRules Approved(Func<Programme, Programme>? change = null, string zone = "America/Chicago") =>
        Of(change, zone, new Approval("vet", Saved, null));

    /// <summary>The default programme with a change and these approvals.</summary>
    public static HerdRules Of(Func<Programme, Programme>? change, string zone, params Approval[] approvals) =>
        new(DateTimeZoneProviders.Tzdb[zone], [Version(1, "2020-01-01", change, approvals)]);

    /// <summary>One version.</summary>
    public static ProgrammeVersion Version(int number, string inForceFrom, Func<Programme, Programme>? change, params Approval[] approvals)
    {
        var programme = new Programme { InForceFrom = Cow.Day(inForceFrom) };
        return new ProgrammeVersion(number, change?.Invoke(programme) ?? programme, Saved, approvals);
    }

    /// <summary>The programme with another resynchronisation.</summary>
    public static Programme Resynchronised(this Programme programme, string protocol, StartRule start = StartRule.BeforeResult, int startDay = 25) =>
        programme with { Resynchronisation = new ResynchronisationChoice { Protocol = protocol, ProtocolHeifer = protocol, Start = start, StartDay = startDay } };

    /// <summary>A day that is every weekday's.</summary>
    public static readonly System.Collections.Immutable.ImmutableArray<IsoDayOfWeek> EveryDay =
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday, IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday];
}
