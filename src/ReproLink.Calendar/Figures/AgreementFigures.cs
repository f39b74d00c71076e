using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures;

/// <summary>Blood against the examination that followed.</summary>
internal sealed class AgreementFigures(FigureQuestion question) : IFigures
{
    /// <summary>Days after the sample within which the examination must come: later, a loss between them is likelier (own policy).</summary>
    private const int MostDaysAfter = 14;

    // Days by which any programme lets a sample count: the floors of T1 and T2.
    private const int FirstDay = 28;
    private const int FirstDayInMilk = 60;

    private readonly List<(Outcome Said, Outcome Seen, FigureCase Case)> _pairs = [];
    private readonly Tally _leftOut = new(question.Detail == "agreement");

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        foreach (var judged in lactation.Log.Results)
        {
            if (judged.Fact is not TestResult result || result.Day < question.From || result.Day > question.To
                || TestFigures.DaysPostService(lactation, result.Day) is not >= FirstDay || result.Day - lactation.Calved < FirstDayInMilk)
            {
                continue;
            }

            if (judged.Outcome is not (Outcome.Pregnant or Outcome.Open or Outcome.Recheck))
            {
                _leftOut.LeaveOut(LeftOutReason.NoYesOrNo, lactation.Animal, result.Day, result.Id);
            }
            else if (Examined(lactation, result) is { } seen)
            {
                _pairs.Add((judged.Outcome.Value, seen.Outcome, new FigureCase(lactation.Animal, result.Day, CasePart.Counted) { Fact = result.Id }));
            }
            else
            {
                _leftOut.LeaveOut(LeftOutReason.NotExamined, lactation.Animal, result.Day, result.Id);
            }
        }
    }

    public IEnumerable<Figure> Figures()
    {
        var kappa = new Kappa(Pairs(Outcome.Pregnant, Outcome.Pregnant), Pairs(Outcome.Pregnant, Outcome.Open), Pairs(Outcome.Open, Outcome.Pregnant), Pairs(Outcome.Open, Outcome.Open));
        return
        [
            new Figure(FigureBook.Get("agreement"),
            [
                Line("sensitivity", "found pregnant, of those examined pregnant", said: Outcome.Pregnant, seen: Outcome.Pregnant, ofSeen: true, strict: false),
                Line("specificity", "found open, of those examined open", Outcome.Open, Outcome.Open, true, false),
                Line("positive-predictive", "examined pregnant, of those found pregnant", Outcome.Pregnant, Outcome.Pregnant, false, false),
                Line("negative-predictive", "examined open, of those found open", Outcome.Open, Outcome.Open, false, false),
                Line("sensitivity-strict", "found pregnant, of those examined pregnant; inconclusive counts against the test", Outcome.Pregnant, Outcome.Pregnant, true, true),
                Line("specificity-strict", "found open, of those examined open; inconclusive counts against the test", Outcome.Open, Outcome.Open, true, true),
                Agreeing(),
                _leftOut.Finish(new FigureLine("kappa", "agreement beyond chance", FigureUnit.Kappa, kappa.Agreement.Count, kappa.Judged)
                {
                    Value = kappa.Value,
                    Limits = kappa.Limits,
                    Method = "Cohen's kappa, large-sample interval (Fleiss, Cohen and Everitt 1969)",
                    NoValue = kappa.Judged > 0 ? "all of one class: chance alone agrees" : null,
                }),
            ]),
        ];
    }

    private static Examination? Examined(LactationRecord lactation, TestResult result)
    {
        foreach (var judged in lactation.Log.Results)
        {
            if (judged.Fact is Examination examination && judged.Decision is Decision.Pregnant or Decision.Open
                && judged.Fact.Day >= result.Day && judged.Fact.Day - result.Day <= MostDaysAfter
                && !lactation.Services.Exists(s => s.Day > result.Day && s.Day <= judged.Fact.Day))
            {
                return examination;
            }
        }

        return null;
    }

    private int Pairs(Outcome said, Outcome seen) => _pairs.Count(p => p.Said == said && p.Seen == seen);

    // Of those seen so (or said so), how many were said (or seen) so too.
    private FigureLine Line(string key, string label, Outcome said, Outcome seen, bool ofSeen, bool strict)
    {
        var tally = New();
        foreach (var pair in _pairs)
        {
            if (ofSeen ? pair.Seen != seen : pair.Said != said)
            {
                continue;
            }

            if (pair.Said == Outcome.Recheck && !strict)
            {
                tally.LeaveOut(LeftOutReason.NoYesOrNo, pair.Case.Animal, pair.Case.Day, pair.Case.Fact);
            }
            else
            {
                tally.Count(pair.Said == said && pair.Seen == seen, pair.Case.Animal, pair.Case.Day, pair.Case.Fact);
            }
        }

        return tally.Share(key, label);
    }

    private FigureLine Agreeing()
    {
        var tally = New();
        foreach (var (said, seen, what) in _pairs)
        {
            if (said == Outcome.Recheck)
            {
                tally.LeaveOut(LeftOutReason.NoYesOrNo, what.Animal, what.Day, what.Fact);
            }
            else
            {
                tally.Count(said == seen, what.Animal, what.Day, what.Fact);
            }
        }

        return tally.Share("agreeing", "both said the same");
    }

    private Tally New()
    {
        var tally = new Tally(question.Detail == "agreement");
        tally.Take(_leftOut);
        return tally;
    }
}
