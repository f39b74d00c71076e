using System.Globalization;
using ReproLink.Calendar.Pregnancies;
using ReproLink.TestSupport;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.DayLoops;

/// <summary>Due and dry-off days against tables made elsewhere. The tables are kept beside the repository.</summary>
public sealed class DueDateTests
{
    // A breed for each length of the grid that a cow of some breed carries.
    private static readonly Dictionary<int, string> BreedOf = new()
    {
        [279] = "Holstein",
        [280] = "Jersey",
        [281] = "Angus",
        [282] = "Ayrshire",
        [283] = "Mixed",
        [285] = "Hereford",
        [286] = "Guernsey",
        [287] = "Simmental",
        [288] = "Brown-Swiss",
        [289] = "Limousin",
        [292] = "Brahman",
    };

    [SkippableFact]
    public void Due_and_dry_off_days_match_the_grid()
    {
        foreach (var row in Rows("due-date-grid.csv"))
        {
            var (served, length) = (Cow.Day(row[0]), int.Parse(row[1], CultureInfo.InvariantCulture));
            Assert.Equal(Cow.Day(row[2]), served + length);
            Assert.Equal((Cow.Day(row[3]), Cow.Day(row[4])), (served + length - 60, served + length - 45));
        }
    }

    [SkippableFact]
    public void A_pregnant_cow_of_each_breed_is_due_and_dried_off_as_in_the_grid()
    {
        var compared = 0;
        foreach (var row in Rows("due-date-grid.csv").Where(r => BreedOf.ContainsKey(int.Parse(r[1], CultureInfo.InvariantCulture))))
        {
            var served = Cow.Day(row[0]);
            var breed = BreedOf[int.Parse(row[1], CultureInfo.InvariantCulture)];
            var cow = Cow.Of($"card parity 1 breed {breed}", $"{served} insemination", $"{served + 30} blood pregnant");
            var dates = PregnancyDates.Of(cow.On(served + 30), Cow.Defaults);
            Assert.Equal((Cow.Day(row[2]), Cow.Day(row[3])), (dates?.Due, dates?.DryOff));
            compared++;
        }

        Assert.True(compared >= 50, $"only {compared} rows have a breed");
    }

    [SkippableFact]
    public void Printed_pairs_of_dates_are_as_far_apart_as_the_calendar_says()
    {
        foreach (var row in Rows("gestation-date-pairs.csv"))
            Assert.Equal(int.Parse(row[2], CultureInfo.InvariantCulture), Cow.Day(row[1]) - Cow.Day(row[0]));
    }

    [SkippableFact]
    public void Charts_that_count_the_breeding_day_as_day_1_are_not_followed()
    {
        var traps = Rows("gestation-date-pairs.csv").Where(r => r[4] == "inclusive_count_trap").ToList();
        Assert.NotEmpty(traps);
        Assert.All(traps, r => Assert.Equal(Cow.Day(r[1]) + 1, Cow.Day(r[0]) + Gestation.Others));
    }

    [Fact]
    public void Served_on_22_May_2023_a_cow_of_283_days_is_due_on_leap_day() =>
        Assert.Equal(Cow.Day("2024-02-29"), Cow.Day("2023-05-22") + Gestation.Others);

    private static IEnumerable<string[]> Rows(string file)
    {
        var path = CheckData.Find(file);
        Skip.If(path is null, $"{file} is not beside this checkout");
        return File.ReadLines(path!).Skip(1).Select(l => l.Split(','));
    }
}
