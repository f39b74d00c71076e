using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Figures;

/// <summary>21-day service and pregnancy rates, by calendar cycles (rule A) and by each cow's own (rule B).</summary>
internal sealed class CycleFigures : IFigures
{
    /// <summary>Days of a cycle.</summary>
    public const int CycleDays = 21;

    /// <summary>More than half of a cycle.</summary>
    public const int FewestEligibleDays = 11;

    private readonly FigureQuestion _question;
    private readonly Cycle[] _cycles;
    private readonly Tally _ownCycles;
    private int _ownPregnant;
    private int _ownCount;

    public CycleFigures(FigureQuestion question, AnswerDays answers, Day asOf)
    {
        _question = question;
        _ownCycles = new Tally(question.Detail == "pregnancy-rate-own-cycles");
        var cycles = new List<Cycle>();
        for (var start = question.From; start + (CycleDays - 1) <= Day.Min(question.To, asOf); start += CycleDays)
        {
            cycles.Add(new Cycle(start, answers.IsPending(start + (CycleDays - 1)), question.Detail));
        }

        _cycles = [.. cycles];
    }

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        if (lactation.Calved is not { } calved)
        {
            return;
        }

        var days = new EligibleDays(lactation);
        var first = Math.Max((calved - _question.From) / CycleDays, 0);
        for (var i = first; i < _cycles.Length && _cycles[i].Start <= lactation.LastDay; i++)
        {
            _cycles[i].Add(lactation, days);
        }

        if (calved >= _question.From && calved <= _question.To)
        {
            AddOwnCycles(lactation, calved);
        }
    }

    private void AddOwnCycles(LactationRecord lactation, Day calved)
    {
        var (follow, why) = lactation.Follow();
        var after = follow.Days - lactation.WaitingPeriod;
        if (after < 0)
        {
            _ownCycles.LeaveOut(follow.End == FollowUpEnd.Event ? LeftOutReason.AlreadyPregnant : why ?? LeftOutReason.NotReached, lactation.Animal, calved);
            return;
        }

        var pregnant = follow.End == FollowUpEnd.Event;
        _ownPregnant += pregnant ? 1 : 0;
        _ownCount += pregnant ? (after / CycleDays) + 1 : (after + (CycleDays / 2)) / CycleDays;
        _ownCycles.Count(pregnant, lactation.Animal, calved);
    }

    public IEnumerable<Figure> Figures()
    {
        var all = new Cycle(_question.From, false, _question.Detail);
        foreach (var cycle in _cycles.Where(c => !c.Pending))
        {
            all.Take(cycle);
        }

        foreach (var cycle in _cycles.Where(c => c.Pending))
        {
            all.Served.LeaveOut(LeftOutReason.Pending, cycle.Served.Of);
            all.Pregnant.LeaveOut(LeftOutReason.Pending, cycle.Pregnant.Of);
        }

        var own = new Proportion(_ownPregnant, _ownCount);
        return
        [
            new(FigureBook.Get("service-rate"), [all.Served.Share("all", "all cycles that are not pending"), .. _cycles.Select(c => c.Served.Share(c.Key, c.Label) with { Pending = c.Pending })]),
            new(FigureBook.Get("pregnancy-rate"), [all.Pregnant.Share("all", "all cycles that are not pending"), .. _cycles.Select(c => c.Pregnant.Share(c.Key, c.Label) with { Pending = c.Pending })]),
            new(FigureBook.Get("pregnancy-rate-own-cycles"),
            [
                _ownCycles.Finish(new FigureLine("all", "pregnancies kept, a cow-cycle", FigureUnit.Share, _ownPregnant, _ownCount)
                {
                    Value = own.Value,
                    Limits = own.Wilson(),
                    Method = Tally.Wilson,
                }),
            ]),
        ];
    }
}

/// <summary>One calendar cycle.</summary>
internal sealed class Cycle(Day start, bool pending, string? detail)
{
    public Day Start { get; } = start;

    public Day End => Start + (CycleFigures.CycleDays - 1);

    public bool Pending { get; } = pending;

    public string Key => Start.ToString();

    public string Label => $"{Start.ToSentence()} to {End.ToSentence()}";

    public Tally Served { get; } = new(detail == "service-rate");

    public Tally Pregnant { get; } = new(detail == "pregnancy-rate");

    public void Add(LactationRecord lactation, EligibleDays days)
    {
        var (animal, served, conceived, unknown) = (lactation.Animal, (ServiceRecord?)null, (ServiceRecord?)null, (ServiceRecord?)null);
        var eligible = days.In(Start, End);
        ServiceRecord? elsewhere = null;
        foreach (var service in lactation.Services)
        {
            if (service.Day < Start || service.Day > End)
            {
                continue;
            }

            if (eligible < CycleFigures.FewestEligibleDays || !days.IsEligible(service.Day, Start, End))
            {
                elsewhere = service.Outcome == ServiceOutcome.Pregnant || elsewhere is null ? service : elsewhere;
                var reason = eligible < CycleFigures.FewestEligibleDays ? LeftOutReason.FewEligibleDays : LeftOutReason.ServedWhenNotEligible;
                Served.LeaveOut(reason, animal, service.Day, service.Fact.Id);
                if (service.Outcome == ServiceOutcome.Pregnant)
                {
                    Pregnant.LeaveOut(reason, animal, service.Day, service.Fact.Id);
                }

                continue;
            }

            served ??= service;
            conceived = service.Outcome == ServiceOutcome.Pregnant ? service : conceived;
            unknown = service.Outcome == ServiceOutcome.Unknown ? service : unknown;
        }

        if (eligible < CycleFigures.FewestEligibleDays)
        {
            return;
        }

        Served.Count(served is not null, animal, served?.Day ?? Start, served?.Fact.Id);
        if (conceived is not null)
        {
            Pregnant.Count(true, animal, conceived.Day, conceived.Fact.Id);
        }
        else if (unknown is not null)
        {
            Pregnant.LeaveOut(unknown.Why, animal, unknown.Day, unknown.Fact.Id);
        }
        else if (elsewhere?.Outcome != ServiceOutcome.Pregnant)
        {
            Pregnant.Count(false, animal, served?.Day ?? Start, served?.Fact.Id);
        }
    }

    /// <summary>Adds another cycle's counts.</summary>
    public void Take(Cycle other)
    {
        Served.Take(other.Served);
        Pregnant.Take(other.Pregnant);
    }
}
