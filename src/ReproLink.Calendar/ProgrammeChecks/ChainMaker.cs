using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.ProgrammeChecks;

/// <summary>Makes the chains of a programme, without suggestions.</summary>
internal static class ChainMaker
{
    // The invented cow of the check calved so long before that only the service bounds her.
    private const int DaysInMilkAtService = 150;

    public static CheckedProgramme Of(Programme programme, HerdRules herd, Day week) =>
        new(Chains(EveryWeek(programme, herd.Zone, herd.OwnProtocols), week - ((int)week.Weekday - 1)));

    /// <summary>Rules under which a programme governs every week alike.</summary>
    public static HerdRules EveryWeek(Programme programme, DateTimeZone zone, IEnumerable<Protocol> ownProtocols)
    {
        // The weekly pattern is checked; closed dates are exceptions to it and differ from week to week.
        var everyWeek = programme with
        {
            InForceFrom = Day.Earliest,
            Week = programme.Week with { ClosedDates = [] },
            Laboratory = programme.Laboratory with { ClosedDates = [] },
        };
        return new HerdRules(zone, [new ProgrammeVersion(1, everyWeek, Instant.MinValue, [])], ownProtocols);
    }

    /// <summary>The chains of the week that begins with a Monday.</summary>
    public static IReadOnlyList<CheckChain> Chains(HerdRules rules, Day monday)
    {
        var days = Enumerable.Range(0, 7).Select(i => monday + i).ToList();
        var chains = new List<CheckChain>();
        chains.AddRange(days.Select(day => AfterService(rules, day, heifer: false)).OfType<CheckChain>());
        chains.AddRange(days.Select(day => AfterService(rules, day, heifer: true)).OfType<CheckChain>());
        chains.AddRange(days.Select(day => AfterCalving(rules, rules.On(day).Programme, day)).OfType<CheckChain>());
        return chains;
    }

    private static CheckChain? AfterService(HerdRules rules, Day service, bool heifer)
    {
        var animal = Invented(rules, service, heifer);
        if (ChosenProtocol.Of(animal, rules, service) is not { } chosen)
        {
            return null;
        }

        var opens = service + rules.On(service).Programme.Test.MinDaysPostService;
        var chain = new CheckChain { From = ChainFrom.Service, Heifer = heifer, Weekday = service.Weekday, On = service, Protocol = chosen.Protocol.Id, FirstDraw = rules.FirstSamplingDay(opens) };
        if (FirstStart.Find(animal, rules, service, opens) is not { LastDraw: { } draw } start || rules.Laboratory.Report(draw) is not { } report)
        {
            return chain with { Findings = [Infeasible()] };
        }

        var dated = Dated(chain, rules, start.Protocol, FirstStart.StartAt(rules, start.Protocol, start.Start));
        return dated with
        {
            LastDraw = draw,
            Dispatched = report.OnFarm ? null : report.Dispatched,
            Result = StepTimes.At(report.Day, report.Time),
            SlackDays = chain.FirstDraw is { } first ? draw - first : null,
            Slips = start.Slips,
            Findings = start.Slips > 0 ? [Slipped(start), .. dated.Findings] : dated.Findings,
        };
    }

    private static CheckChain? AfterCalving(HerdRules rules, Programme programme, Day calving)
    {
        if (programme.FirstService is not { } choice || rules.FindProtocol(choice.Protocol) is not { } protocol)
        {
            return null;
        }

        var chain = new CheckChain { From = ChainFrom.Calving, Weekday = calving.Weekday, On = calving, Protocol = protocol.Id };
        return PlanRun.FirstServiceStart(rules, choice, protocol, calving) is { } start
            ? Dated(chain, rules, protocol, FirstStart.StartAt(rules, protocol, start))
            : chain with { Findings = [new CheckFinding(CheckProblem.Infeasible, "first service has no start weekday", null, null)] };
    }

    private static CheckChain Dated(CheckChain chain, HerdRules rules, Protocol protocol, LocalDateTime start)
    {
        var steps = protocol.Steps.Select(s => new ChainStep(s.Id, s.Kind, StepTimes.Planned(protocol, s, start, rules.Zone), s.Gated)).ToList();
        var insemination = steps.Find(s => s.Kind == StepKind.Inseminate);
        return chain with
        {
            Steps = steps,
            FirstGated = steps.Find(s => s.Gated),
            Insemination = insemination,
            IntervalDays = insemination is null ? null : Day.From(insemination.At.Date) - chain.On,
            Findings = [.. steps.SelectMany(s => Odd(s, rules))],
        };
    }

    private static IEnumerable<CheckFinding> Odd(ChainStep step, HerdRules rules)
    {
        var day = Day.From(step.At.Date);
        var week = rules.On(day).Programme.Week;
        if (day.Weekday is IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday)
        {
            yield return new CheckFinding(CheckProblem.WeekendStep, $"{step.Id} falls on a {day.Weekday}", step, null);
        }

        if (step.At.TimeOfDay < week.WorkingFrom || step.At.TimeOfDay > week.WorkingTo)
        {
            yield return new CheckFinding(CheckProblem.OffHoursStep, $"{step.Id} falls at {step.At.TimeOfDay:HH':'mm}, outside working hours", step, null);
        }
    }

    private static CheckFinding Infeasible() => new(CheckProblem.Infeasible,
        "no start leaves a sampling day whose answer is back before the first step that needs it: the plan waits for open", null, null);

    private static CheckFinding Slipped(FirstStart start) => new(CheckProblem.Slip,
        $"the start slips {start.Slips} start day{(start.Slips > 1 ? "s" : "")}: no draw day in time for an earlier one", null, null);

    private static AnimalState Invented(HerdRules rules, Day service, bool heifer)
    {
        var card = new AnimalCard(Day.Earliest) { Id = new FactId(1), Parity = heifer ? 0 : 1 };
        Fact[] facts = heifer
            ? [card, new Insemination(service) { Id = new FactId(3) }]
            : [card, new Calving(service - DaysInMilkAtService) { Id = new FactId(2) }, new Insemination(service) { Id = new FactId(3) }];
        return HistoryFold.Fold(AnimalHistory.Of("check", facts), rules, service, Instant.MaxValue);
    }
}
