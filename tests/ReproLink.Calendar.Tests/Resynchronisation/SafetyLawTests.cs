using ReproLink.Calendar.Tests.Laws;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>
/// Law 3 over random animal-days: ten thousand here; a million with <c>REPROLINK_LONG=1 dotnet test -c Release
/// tests/ReproLink.Calendar.Tests --filter SafetyLawTests</c>.
/// </summary>
public sealed class SafetyLawTests
{
    private const int Ordinary = 10_000;
    private static readonly int Days = Law.Cases(Ordinary);

    [Fact]
    public void No_prostaglandin_or_protocol_insemination_is_firm_for_a_possibly_pregnant_animal()
    {
        var firm = 0;
        PlanHerds.One.Holds(
            one =>
            {
                var broken = SafetyLaw.Broken(one, out var anyFirm);
                if (anyFirm)
                {
                    Interlocked.Increment(ref firm);
                }

                Assert.True(broken is null, broken);
            },
            cases: Ordinary);

        // The law says nothing about herds in which nothing is ever firm.
        Assert.True(firm > Days / 50, $"only {firm} of {Days} animal-days had a firm step behind the gate");
    }

    [Fact]
    public void The_work_calendar_shows_no_firm_step_that_no_plan_has() =>
        PlanHerds.One.Holds(one => Assert.Null(SafetyLaw.SecondWay(one)), cases: Ordinary / 10);

    // Decisions 0030 to 0032: the letter of the rules would let these through; the reading that withholds does not.
    [Theory]
    [InlineData("an inconclusive sample in the clearance days after a loss", "card parity 0; 2026-08-01 insemination; 2026-09-05 loss examined; 2026-09-10 blood recheck")]
    [InlineData("milk pregnant without a milk test on the day of an open by blood", "card parity 0; 2026-08-01 insemination; 2026-09-05 blood open; 2026-09-05 milk pregnant")]
    [InlineData("palpation too early says pregnant where ultrasound says open", "card parity 0; 2026-09-01 insemination; 2026-10-05 palpation pregnant; 2026-10-05 ultrasound open")]
    [InlineData("blood pregnant outranked by a palpation on day 31 of a failed service", "card parity 0; 2026-09-01 insemination; 2026-09-29 blood open; 2026-10-02 blood pregnant; 2026-10-02 palpation open")]
    [InlineData("recheck of a new service after a double recheck, then open 4 days later", "card parity 0; 2026-08-01 insemination; 2026-09-01 blood recheck; 2026-09-08 blood recheck; 2026-09-12 insemination; 2026-10-06 blood recheck; 2026-10-10 blood open")]
    public void Doubt_that_the_letter_sets_aside_closes_the_gate(string why, string facts) =>
        Assert.True(ReproLink.Calendar.Gates.Gate.Closed(Cow.Of(facts.Split("; ")).On(Cow.Day("2026-10-20"))) is not null, why);
}
