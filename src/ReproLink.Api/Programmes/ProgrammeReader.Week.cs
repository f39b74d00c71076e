using System.Collections.Immutable;
using System.Text.Json;
using NodaTime;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Api.Programmes;

/// <content>The farm's week and the laboratory's.</content>
internal static partial class ProgrammeReader
{
    private const int MostClosedDates = 1000;
    private const int MostTubes = 10_000;
    private const int MinutesOfDay = 1440;

    private static WeekRoutine Week(ObjectReader reader)
    {
        var usual = new WeekRoutine();
        var hours = reader.Object("workingHours");
        var week = new WeekRoutine
        {
            SamplingDays = Weekdays(reader, "samplingDays") ?? usual.SamplingDays,
            StartDays = Weekdays(reader, "startDays") ?? usual.StartDays,
            Morning = reader.Time("morning") ?? usual.Morning,
            Afternoon = reader.Time("afternoon") ?? usual.Afternoon,
            WorkingFrom = hours?.Time("from") ?? usual.WorkingFrom,
            WorkingTo = hours?.Time("to") ?? usual.WorkingTo,
            ClosedDates = ClosedDates(reader) ?? usual.ClosedDates,
            MaxTubesPerDay = reader.Integer("maxTubesPerDay", 1, MostTubes) ?? usual.MaxTubesPerDay,
        };
        Later(reader, "afternoon", week.Morning, week.Afternoon, "morning");
        if (hours is not null)
        {
            Later(hours, "to", week.WorkingFrom, week.WorkingTo, "from");
            hours.Done();
        }

        reader.Done();
        return week;
    }

    private static Laboratory Laboratory(ObjectReader reader)
    {
        var usual = new Laboratory();
        var laboratory = new Laboratory
        {
            Kind = reader.Word("kind", ProgrammeVocabulary.LaboratoryKinds) ?? usual.Kind,
            DispatchDays = Weekdays(reader, "dispatchDays") ?? usual.DispatchDays,
            TransitDays = reader.Integer("transitDays", 0, 30) ?? usual.TransitDays,
            WorkingDays = Weekdays(reader, "workingDays") ?? usual.WorkingDays,
            TurnaroundWorkingDays = reader.Integer("turnaroundWorkingDays", 0, 30) ?? usual.TurnaroundWorkingDays,
            ReportTime = reader.Time("reportTime") ?? usual.ReportTime,
            ClosedDates = ClosedDates(reader) ?? usual.ClosedDates,
            Minutes = reader.Integer("minutes", 0, MinutesOfDay) ?? usual.Minutes,
        };
        if (laboratory.Kind != LaboratoryKind.OnFarm && reader.Has("minutes"))
        {
            reader.Refuse("minutes", ProblemTypes.InvalidValue, "only with the kind on-farm", "'minutes' belongs to the kind on-farm.");
        }

        reader.Done();
        return laboratory;
    }

    private static ImmutableArray<IsoDayOfWeek>? Weekdays(ObjectReader reader, string name) =>
        reader.Words(name, ProgrammeVocabulary.Weekdays, "weekday") is { } days ? [.. days] : null;

    private static ImmutableArray<Day>? ClosedDates(ObjectReader reader)
    {
        const string Allowed = "a list of dates that exist, YYYY-MM-DD";
        if (reader.List("closedDates", MostClosedDates, Allowed) is not { } elements)
        {
            return null;
        }

        var days = new SortedSet<Day>();
        foreach (var element in elements)
        {
            if (element.ValueKind != JsonValueKind.String || !Dates.TryDay(element.GetString()!, out var day))
            {
                reader.Refuse("closedDates", ProblemTypes.InvalidValue, Allowed, $"'closedDates' names {Short(element)}; allowed: {Allowed}.");
                return null;
            }

            days.Add(day);
        }

        return [.. days];
    }

    private static string Short(JsonElement element) => element.GetRawText() is { Length: <= 60 } raw ? raw : "a long text";

    private static void Later(ObjectReader reader, string name, LocalTime early, LocalTime late, string than)
    {
        if (late <= early)
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, $"later than '{than}', {early:HH:mm}");
        }
    }
}
