using System.Globalization;
using System.Runtime.CompilerServices;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;
using ReproLink.TestSupport.Plans;

namespace ReproLink.Calendar.Tests.ProgrammeChecks;

/// <summary>The turnaround tables (turnaround-tables.txt) come out of the programme check cell by cell.</summary>
public sealed class TurnaroundTableTests
{
    private static readonly Day Week = Cow.Day("2026-06-01");

    public static TheoryData<string> Rows(string kind)
    {
        var rows = new TheoryData<string>();
        foreach (var line in File.ReadLines(TablePath()).Where(l => l.StartsWith(kind + " ", StringComparison.Ordinal)))
        {
            rows.Add(line[(kind.Length + 1)..]);
        }

        return rows;
    }

    [Theory]
    [MemberData(nameof(Rows), "before")]
    public void Gnrh_before_the_result(string row)
    {
        var cells = row.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        for (var turnaround = 0; turnaround <= 3; turnaround++)
        {
            var programme = Everyday(turnaround).Resynchronised("ovsynch-56", StartRule.BeforeResult, Number(cells[0]));
            foreach (var chain in Chains(programme))
            {
                var cell = cells[2 + turnaround];
                if (cell == "x")
                {
                    // No draw day for this start: the check says so, and by how much the start slips.
                    Assert.True(chain.Slips > 0 || chain.Findings.Any(f => f.Problem == CheckProblem.Infeasible));
                    continue;
                }

                Assert.Equal(0, chain.Slips);
                Assert.Equal((Number(cells[0]), Number(cells[1]), Number(cell), Number(cells[6])),
                    (At(chain, "gnrh-1"), At(chain, "pgf-1"), chain.LastDraw!.Value - chain.On, chain.IntervalDays!.Value));
                Assert.Equal(Number(cell) - 28, chain.SlackDays);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Rows), "after")]
    public void Nothing_before_the_result(string row)
    {
        var n = row.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Number).ToArray();
        foreach (var chain in Chains(Everyday(n[0]).Resynchronised("ovsynch-56", StartRule.AtResult)))
        {
            Assert.Equal((n[1], n[2]), (chain.FirstDraw!.Value - chain.On, Day.From(chain.Result!.Value.Date) - chain.On));
            Assert.Equal((n[3], n[4], n[5]), (At(chain, "gnrh-1"), At(chain, "pgf-1"), At(chain, "inseminate")));
        }

        foreach (var chain in Chains(Everyday(n[0]).Resynchronised("short-resynch-cl")))
        {
            Assert.Equal((n[6], n[7]), (At(chain, "pgf-1"), At(chain, "inseminate")));
        }

        foreach (var chain in Chains(Everyday(n[0]).Resynchronised("cosynch-5d-dairy-cow", StartRule.AtResult)))
        {
            Assert.Equal((n[8], n[9], n[10]), (At(chain, "gnrh-1"), At(chain, "pgf-1"), At(chain, "inseminate")));
        }
    }

    [Theory]
    [MemberData(nameof(Rows), "week")]
    public void One_session_a_week(string row)
    {
        var n = row.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Number).ToArray();
        var session = IsoDayOfWeek.Tuesday;
        var drawn = (IsoDayOfWeek)((((int)session - 1 - n[0] + 14) % 7) + 1);
        var programme = Everyday(n[0]).Resynchronised("ovsynch-56", StartRule.BeforeResult, n[1]);
        programme = programme with { Week = programme.Week with { StartDays = [session], SamplingDays = [drawn] } };

        var chains = Chains(programme);
        Assert.All(chains, chain => Assert.Equal(0, chain.Slips));
        Seven(n[2], chains.Select(c => At(c, "gnrh-1")));
        Seven(n[3], chains.Select(c => c.LastDraw!.Value - c.On));
        Seven(n[4], chains.Select(c => At(c, "pgf-1")));
        Seven(n[5], chains.Select(c => c.IntervalDays!.Value));
    }

    private static void Seven(int first, IEnumerable<int> days) => Assert.Equal(Enumerable.Range(first, 7), days.Order());

    // Draws, dispatches and laboratory work every day; answers before the morning session t days later; t = 0 on the farm.
    private static Programme Everyday(int turnaround) => new()
    {
        InForceFrom = Week,
        Week = new WeekRoutine { SamplingDays = SavedProgrammes.EveryDay, StartDays = SavedProgrammes.EveryDay },
        Laboratory = turnaround == 0
            ? new Laboratory { Kind = LaboratoryKind.OnFarm }
            : new Laboratory { DispatchDays = SavedProgrammes.EveryDay, WorkingDays = SavedProgrammes.EveryDay, TransitDays = turnaround, ReportTime = new LocalTime(6, 0) },
    };

    private static List<CheckChain> Chains(Programme programme)
    {
        var chains = ProgrammeCheck.Run(programme, Cow.Defaults, Week).Chains.Where(c => c is { From: ChainFrom.Service, Heifer: false }).ToList();
        Assert.Equal(7, chains.Count);
        return chains;
    }

    private static int At(CheckChain chain, string step) => Day.From(chain.Steps.Single(s => s.Id == step).At.Date) - chain.On;

    private static int Number(string cell) => int.Parse(cell, CultureInfo.InvariantCulture);

    private static string TablePath([CallerFilePath] string source = "") => Path.Combine(Path.GetDirectoryName(source)!, "turnaround-tables.txt");
}
