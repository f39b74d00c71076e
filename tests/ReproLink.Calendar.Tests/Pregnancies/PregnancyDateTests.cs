using ReproLink.Calendar.Pregnancies;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Pregnancies;

/// <summary>Due, dry-off and window of pregnant cows (5.8).</summary>
public sealed class PregnancyDateTests
{
    [Theory]
    [InlineData("Holstein", 279, 278)]
    [InlineData("Jersey", 280, 278)]
    [InlineData("Brown Swiss", 288, 287)]
    [InlineData("Ayrshire", 282, 282)]
    [InlineData("Guernsey", 286, 285)]
    [InlineData("Milking Shorthorn", 281, 279)]
    [InlineData("Angus", 281, 281)]
    [InlineData("Hereford", 285, 285)]
    [InlineData("Charolais", 289, 289)]
    [InlineData("Limousin", 289, 289)]
    [InlineData("Simmental", 287, 287)]
    [InlineData("Brahman", 292, 292)]
    [InlineData("Zebu", 283, 283)]
    [InlineData(null, 283, 283)]
    [InlineData(" holstein ", 279, 278)]
    public void Gestation_of_cow_and_heifer(string? breed, int cow, int heifer) =>
        Assert.Equal((cow, heifer), (Gestation.Of(breed, heifer: false), Gestation.Of(breed, heifer: true)));

    [Theory]
    [InlineData("Holstein", "Holstein", false, 279)]
    [InlineData("Holstein", "Angus", false, 280)] // 280.0
    [InlineData("Holstein", "Jersey", false, 280)] // 279.5, half up
    [InlineData("Holstein", "Angus", true, 280)] // (278 + 281) / 2 = 279.5, half up
    [InlineData("Holstein", "Brown Swiss", true, 283)] // (278 + 287) / 2 = 282.5: the sire's value for heifers
    [InlineData("Holstein", "Zebu", false, 281)]
    public void The_sire_s_breed_enters_with_its_value_for_the_dam_s_class(string dam, string sire, bool heifer, int days) =>
        Assert.Equal(days, Gestation.Of(dam, sire, heifer));

    [Theory]
    // Animal 1042: Holstein by Angus, (279 + 281) / 2 = 280 days; 60 days before.
    [InlineData("card parity 1 breed Holstein; 2026-07-01 calving; 2026-09-10 insemination sire-breed Angus; 2026-10-20 blood pregnant", "2026-09-10 due 2027-06-17 from 2027-06-06 to 2027-06-28 dry 2027-04-18")]
    [InlineData("card parity 0 breed Holstein; 2026-09-10 insemination; 2026-10-20 blood pregnant", "2026-09-10 due 2027-06-15 from 2027-06-04 to 2027-06-26 dry none")]
    // Over leap day: 22 May 2023 + 283 = 29 February 2024.
    [InlineData("card parity 2; 2023-05-22 insemination; 2023-07-20 ultrasound pregnant", "2023-05-22 due 2024-02-29 from 2024-02-18 to 2024-03-11 dry 2023-12-31")]
    // An exposure: due by its last possible day, window and dry-off from its first.
    [InlineData("card parity 2 breed Angus; 2026-05-01 exposure until 2026-06-30; 2026-08-10 blood pregnant", "2026-05-01 due 2027-04-07 from 2027-01-26 to 2027-04-18 dry 2026-12-08")]
    // An embryo's own breed, else 283; day 0 seven days before the transfer.
    [InlineData("card parity 2 breed Holstein; 2026-05-08 embryo-transfer breed Brahman; 2026-07-10 blood pregnant", "2026-05-01 due 2027-02-17 from 2027-02-06 to 2027-02-28 dry 2026-12-19")]
    [InlineData("card parity 2 breed Holstein; 2026-05-08 embryo-transfer; 2026-07-10 blood pregnant", "2026-05-01 due 2027-02-08 from 2027-01-28 to 2027-02-19 dry 2026-12-10")]
    // Served again after pregnant, then pregnant: dated by both, dry-off and earliest by the first, due and latest by the last.
    [InlineData("card parity 2 breed Holstein; 2026-05-01 insemination; 2026-06-05 blood pregnant; 2026-06-20 insemination; 2026-07-20 blood pregnant", "2026-05-01 due 2027-03-26 from 2027-01-24 to 2027-04-06 dry 2026-12-06")]
    // Pregnant of unknown age, or not pregnant: no dates.
    [InlineData("card parity 0; 2026-05-01 blood pregnant; 2026-05-08 blood pregnant", "none")]
    [InlineData("card parity 0; 2026-05-01 insemination", "none")]
    public void Dates(string facts, string dates)
    {
        var state = Cow.Of(facts.Split("; ")).On(Cow.Day(facts.Contains("2023-", StringComparison.Ordinal) ? "2023-08-01" : "2026-11-01"));
        var found = PregnancyDates.Of(state, Cow.Defaults);
        Assert.Equal(dates, found is null ? "none" : $"{found.From} due {found.Due} from {found.DueFrom} to {found.DueTo} dry {found.DryOff?.ToString() ?? "none"}");
    }
}
