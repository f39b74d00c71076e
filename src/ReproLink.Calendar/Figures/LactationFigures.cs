using System.Globalization;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Pregnancies;

namespace ReproLink.Calendar.Figures;

/// <summary>First service, days open and the simple share pregnant, of the lactations that began in the period.</summary>
internal sealed class LactationFigures(FigureQuestion question) : IFigures
{
    /// <summary>Days from the end of the waiting period to the last of its first cycle.</summary>
    private const int LastOfCycle = CycleFigures.CycleDays - 1;

    private readonly Tally _submitted = new(question.Detail == "first-cycle-submission");
    private readonly Tally _toFirst = new(question.Detail == "days-to-first-service");
    private readonly Tally _open = new(question.Detail == "days-open");
    private readonly Tally _openSoFar = new(question.Detail == "days-open");
    private readonly Tally _calved = new(question.Detail == "calving-interval");
    private readonly Tally _due = new(question.Detail == "calving-interval");
    private readonly Tallies<int> _pregnantBy = new(question.Detail == "pregnant-by-reached", SurvivalFigures.Days);

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        if (lactation.Calved is not { } calved || calved < question.From || calved > question.To)
        {
            return;
        }

        Submit(lactation);
        if (lactation.Services is [var first, ..])
        {
            _toFirst.AddDays(Math.Max(first.Day - calved, 0), lactation.Animal, first.Day, first.Fact.Id);
        }
        else
        {
            _toFirst.LeaveOut(lactation.LeftOn is null ? LeftOutReason.NeverServed : LeftOutReason.Left, lactation.Animal, calved);
        }

        var (follow, why) = lactation.Follow();
        if (lactation.Conceived is { } conceived)
        {
            _open.AddDays(follow.Days, lactation.Animal, conceived.Day, conceived.Fact.Id);
            _openSoFar.AddDays(follow.Days, lactation.Animal, conceived.Day, conceived.Fact.Id);
        }
        else
        {
            _open.LeaveOut(why ?? LeftOutReason.NotReached, lactation.Animal, calved);
            if (why == LeftOutReason.NotReached)
            {
                _openSoFar.AddDays(follow.Days, lactation.Animal, lactation.AsOf);
            }
            else
            {
                _openSoFar.LeaveOut(why!.Value, lactation.Animal, calved);
            }
        }

        AddInterval(lactation, calved, why);

        foreach (var days in SurvivalFigures.Days)
        {
            Reach(_pregnantBy[days], lactation, days, follow, why);
        }
    }

    public IEnumerable<Figure> Figures() =>
    [
        new(FigureBook.Get("first-cycle-submission"), [_submitted.Share("all", "served within 21 days of the waiting period")]),
        new(FigureBook.Get("days-to-first-service"), [_toFirst.Mean("all", "days from calving to first service")]),
        new(FigureBook.Get("days-open"),
        [
            _open.Mean("all", "days from calving to conception, pregnant cows"),
            _openSoFar.Mean("so-far", "the same, and days to today of those not pregnant yet"),
        ]),
        new(FigureBook.Get("calving-interval"),
        [
            _calved.Mean("calved", "days from calving to the next calving"),
            _due.Mean("due", "days from calving to the day she is due, pregnant cows"),
        ]),
        new(FigureBook.Get("pregnant-by-reached"), [.. _pregnantBy.Shares(d => (Text(d), $"pregnant by {Text(d)} days in milk"))]),
    ];

    private void AddInterval(LactationRecord lactation, Day calved, LeftOutReason? why)
    {
        if (lactation.NextCalving is { } next)
        {
            _calved.AddDays(next - calved, lactation.Animal, next);
        }
        else if (lactation is { Conceived: { } conceived, LeftOn: null })
        {
            var due = conceived.Day + PregnancyDates.LengthBy(conceived.Fact, lactation.Breed, heifer: false);
            _due.AddDays(due - calved, lactation.Animal, conceived.Day, conceived.Fact.Id);
        }
        else
        {
            _due.LeaveOut(lactation.LeftOn is null ? why ?? LeftOutReason.NotReached : LeftOutReason.Left, lactation.Animal, calved);
        }
    }

    private void Submit(LactationRecord lactation)
    {
        var calved = lactation.Calved!.Value;
        var (from, to) = (calved + lactation.WaitingPeriod, calved + lactation.WaitingPeriod + LastOfCycle);
        var served = lactation.Services.Find(s => s.Day >= from && s.Day <= to);
        var animal = lactation.Animal;
        if (served is null && lactation.Services.Exists(s => s.Day < from && s.IsMaintained))
        {
            _submitted.LeaveOut(LeftOutReason.AlreadyPregnant, animal, calved);
        }
        else if (lactation.LeftOn <= to)
        {
            _submitted.LeaveOut(LeftOutReason.Left, animal, calved);
        }
        else if (lactation.NotBredFrom <= to)
        {
            _submitted.LeaveOut(LeftOutReason.NotToBeBred, animal, calved);
        }
        else if (lactation.LastDay < to)
        {
            _submitted.LeaveOut(LeftOutReason.NotReached, animal, calved);
        }
        else
        {
            _submitted.Count(served is not null, animal, served?.Day ?? calved, served?.Fact.Id);
        }
    }

    private static void Reach(Tally tally, LactationRecord lactation, int days, FollowUp follow, LeftOutReason? why)
    {
        var calved = lactation.Calved!.Value;
        if (calved + days > lactation.AsOf)
        {
            tally.LeaveOut(LeftOutReason.NotReached, lactation.Animal, calved);
        }
        else if (follow.End == FollowUpEnd.Censored && follow.Days < days && why is not null)
        {
            tally.LeaveOut(why.Value, lactation.Animal, calved);
        }
        else
        {
            tally.Count(follow.End == FollowUpEnd.Event && follow.Days <= days, lactation.Animal, calved);
        }
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
