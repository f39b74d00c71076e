using NodaTime;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Testing;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Testing;

public sealed class PlannedDayTests
{
    // Blood of days 74 to 90 was missed; on day 100 the examination takes its place. On day 99, a Tuesday, the next sampling day is day
    // 101: by then her blood is not wanted any more.
    [Fact]
    public void A_day_on_which_she_is_not_wanted_any_more_is_no_planned_day()
    {
        var rules = new HerdRules(DateTimeZoneProviders.Tzdb["America/Chicago"], [new ProgrammeVersion(1, Programme.Default with
        {
            Confirmations = [new(74, 90, TestMethod.Blood), new(100, 120, TestMethod.Ultrasound)],
        }, Instant.MinValue, [])]);
        var tuesday = Cow.Day("2026-09-08");
        var cow = Cow.Of("card parity 1", "2026-06-01 insemination", "2026-07-03 blood pregnant").On(tuesday, rules);
        Assert.Equal(Answer.Eligible, TestWindows.Judge(cow, rules, tuesday).Answer);
        var list = BleedLists.Make([cow], rules, tuesday, tuesday + 6, tuesday);
        Assert.Empty(list.Days);
        Assert.Single(Assert.Single(list.NotListed).Animals);
    }
}
