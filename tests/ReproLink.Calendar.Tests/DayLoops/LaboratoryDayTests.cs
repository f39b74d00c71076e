using System.Collections.Immutable;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.DayLoops;

/// <summary>L1 and L2 for every weekday and every pattern of closed days in two weeks, against a stepper that walks day by day.</summary>
public sealed class LaboratoryDayTests
{
    private static readonly Day Monday = Cow.Day("2026-10-05");
    private static readonly int[] FarmWeek = [1, 2, 3, 4];
    private static readonly int[] LaboratoryWeek = [1, 2, 3, 4, 5];

    [Fact]
    public void Every_draw_day_under_every_closed_pattern_of_a_week()
    {
        for (var farm = 0; farm < 128; farm++)
        {
            for (var laboratory = 0; laboratory < 128; laboratory++)
            {
                var rules = Rules(farm, laboratory, transit: 1, turnaround: (farm + laboratory) % 3);
                for (var weekday = 0; weekday < 7; weekday++)
                {
                    var expected = Step(Monday + weekday, farm, laboratory, 1, (farm + laboratory) % 3);
                    var report = rules.Laboratory.Report(Monday + weekday);
                    Assert.True(expected == (report?.Dispatched, report?.Day), $"farm {farm:b7} laboratory {laboratory:b7} weekday {weekday}: {report}");
                }
            }
        }
    }

    [Fact]
    public void The_last_useful_draw_is_the_last_sampling_day_that_is_back_before_the_step()
    {
        for (var farm = 0; farm < 128; farm++)
        {
            var rules = Rules(farm, laboratory: 0, transit: 1, turnaround: 0);
            for (var step = 0; step < 21; step++)
            {
                Day? expected = null;
                for (var draw = Monday - 7; draw <= Monday + step; draw += 1)
                {
                    var back = Step(draw, farm, 0, 1, 0).Report;
                    if ((int)draw.Weekday is 1 or 4 && !IsClosed(draw, farm) && back < Monday + step) expected = draw;
                }

                Assert.Equal(expected, rules.Laboratory.LastUsefulDraw(Monday - 7, Monday + step, new LocalTime(7, 0)));
            }
        }
    }

    // Leaves, travels, arrives, is worked on: one day at a time.
    private static (Day? Leaves, Day? Report) Step(Day draw, int farm, int laboratory, int transit, int turnaround)
    {
        var day = draw;
        while (!FarmWeek.Contains((int)day.Weekday) || IsClosed(day, farm)) day += 1;
        var leaves = day;
        day += transit;
        while (!IsWorking(day, laboratory)) day += 1;
        for (var left = turnaround; left > 0; left--)
        {
            day += 1;
            while (!IsWorking(day, laboratory)) day += 1;
        }

        return (leaves, day);
    }

    private static bool IsWorking(Day day, int closed) => LaboratoryWeek.Contains((int)day.Weekday) && !IsClosed(day, closed);

    private static bool IsClosed(Day day, int pattern) => day >= Monday && day < Monday + 7 && (pattern & (1 << (day - Monday))) != 0;

    private static HerdRules Rules(int farm, int laboratory, int transit, int turnaround)
    {
        var programme = Programme.Default with
        {
            Week = new WeekRoutine { ClosedDates = Closed(farm) },
            Laboratory = new Laboratory { ClosedDates = Closed(laboratory), TransitDays = transit, TurnaroundWorkingDays = turnaround },
        };
        return new HerdRules(DateTimeZone.Utc, [new ProgrammeVersion(1, programme, Instant.MinValue, [])]);
    }

    private static ImmutableArray<Day> Closed(int pattern) =>
        [.. Enumerable.Range(0, 7).Where(i => (pattern & (1 << i)) != 0).Select(i => Monday + i)];
}
