using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;

namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>Why a programme has no course to reckon with.</summary>
public enum NoCourse
{
    /// <summary>Open cows are put on no protocol: when they are served again hangs on their oestrus.</summary>
    NoProtocol = 1,

    /// <summary>The protocol ends with watching for oestrus, not with a timed insemination.</summary>
    NoInsemination = 2,

    /// <summary>An answer, or a start after it, never comes: no sampling, dispatch, working or start day.</summary>
    NeverAnswered = 3,
}

/// <summary>
/// Makes the course of a programme from its check (5.10): the same code that plans real animals dates an invented cow served on
/// each weekday. Days are counted in a zone without clock changes, so that no course hangs on the week it was made in.
/// </summary>
public sealed class CourseMaker
{
    private static readonly Day Monday = Day.From(new LocalDate(2001, 1, 1));

    // What W1 asks for where a programme has no confirmation of its own: the first of the default windows.
    private static readonly ConfirmationWindow UsualConfirmation = Programme.Default.Confirmations[0];

    private readonly HerdRules _rules;
    private readonly Programme _programme;
    private readonly Protocol _protocol;

    private CourseMaker(HerdRules rules, Protocol protocol)
    {
        _rules = rules;
        _programme = rules.On(Monday).Programme;
        _protocol = protocol;
    }

    /// <summary>The course of a programme's cows, or why it has none.</summary>
    /// <param name="programme">The programme.</param>
    /// <param name="ownProtocols">The herd's own protocols.</param>
    public static (ProgrammeCourse? Course, NoCourse? Why) Of(Programme programme, IReadOnlyCollection<Protocol> ownProtocols)
    {
        ArgumentNullException.ThrowIfNull(programme);
        var rules = ChainMaker.EveryWeek(programme, DateTimeZone.Utc, ownProtocols);
        if (rules.FindProtocol(programme.Resynchronisation.Protocol) is not { FirstGated: not null } protocol)
        {
            return (null, NoCourse.NoProtocol);
        }

        if (protocol.Steps.All(s => s.Kind != StepKind.Inseminate))
        {
            return (null, NoCourse.NoInsemination);
        }

        var course = new CourseMaker(rules, protocol).Make();
        return (course, course is null ? NoCourse.NeverAnswered : null);
    }

    private ProgrammeCourse? Make()
    {
        var chains = ChainMaker.Chains(_rules, Monday);
        var services = chains.Where(c => c is { From: ChainFrom.Service, Heifer: false }).ToList();
        var courses = services.Select(CourseOf).OfType<ServiceCourse>().ToList();
        if (courses.Count < 7)
        {
            return null;
        }

        var firsts = chains.Where(c => c is { From: ChainFrom.Calving, Insemination: not null }).ToList();
        return new ProgrammeCourse
        {
            ByWeekday = courses,
            FirstServiceWeekdays = Weekdays(firsts),
            FirstServiceDays = firsts.Count == 7 ? firsts.Average(c => c.IntervalDays!.Value) : null,
            Whole = Count(_protocol.Steps),
            FirstService = _rules.FindProtocol(_programme.FirstService?.Protocol) is { } first ? Count(first.Steps) : default,
            WaitsForAnswer = [.. services.Where(c => c.IntervalDays is null).Select(c => c.Weekday)],
            Slips = [.. services.Select(c => c.Slips)],
            CountsDoses = true,
        };
    }

    private ServiceCourse? CourseOf(CheckChain chain)
    {
        if (chain.FirstDraw is not { } draw || _rules.FirstSamplingDay(draw + _programme.Test.ResampleAfterDays) is not { } second)
        {
            return null;
        }

        var open = chain.Insemination is { } planned ? Day.From(planned.At.Date) : InseminationAfterDraw(draw);
        var afterSecond = InseminationAfterDraw(second);
        return open is { } next && afterSecond is { } later && FoundLate(chain.On) is var (confirmation, late) && late is { } last
            ? new ServiceCourse(draw - chain.On, next - chain.On, later - chain.On, confirmation - chain.On, last - chain.On)
            {
                BeforeAnswer = StartsBeforeResult(chain) ? BeforeAnswer(chain) : [],
                AfterAnswer = Count(StartsBeforeResult(chain) ? _protocol.Steps.SkipWhile(s => !s.Gated) : _protocol.Steps),
            }
            : null;
    }

    // An animal called pregnant that is not: the first confirmation says open; after a pregnant a second open at least 7 days
    // later must say so too, unless an examination said it or the programme takes the first (T7 a).
    private (Day Confirmation, Day? Insemination) FoundLate(Day service)
    {
        var window = _programme.Confirmations.IsEmpty ? UsualConfirmation : _programme.Confirmations[0];
        if (window.Method is TestMethod.Ultrasound or TestMethod.Palpation)
        {
            var examined = service + window.From;
            return (examined, _rules.FirstStartDay(examined + 1) is { } start ? Insemination(start) : null);
        }

        var draw = _rules.FirstSamplingDay(service + window.From) ?? service + window.From;
        var decides = _programme.Test.OpenAfterPregnant == OpenAfterPregnant.Accept ? draw : _rules.FirstSamplingDay(draw + 7) ?? draw;
        return (draw, InseminationAfterDraw(decides));
    }

    private Day? InseminationAfterDraw(Day draw) =>
        FirstStart.AtResult(_rules, _protocol, draw) is { } start ? Insemination(start.Start) : null;

    private Day Insemination(Day start)
    {
        var step = _protocol.Steps.First(s => s.Kind == StepKind.Inseminate);
        return Day.From(StepTimes.Planned(_protocol, step, FirstStart.StartAt(_rules, _protocol, start), _rules.Zone).Date);
    }

    private bool StartsBeforeResult(CheckChain chain) => chain.IntervalDays is not null
        && (_protocol.Start?.Rule ?? _programme.Resynchronisation.Start) == StartRule.BeforeResult && _protocol.MayStartBeforeResult;

    private List<(int Day, Doses Doses)> BeforeAnswer(CheckChain chain) =>
        [.. _protocol.Steps.TakeWhile(s => !s.Gated).Select(step => (Day.From(chain.Steps.First(s => s.Id == step.Id).At.Date) - chain.On, Count([step])))];

    private static Doses Count(IEnumerable<ProtocolStep> steps) => steps.Aggregate(default(Doses), static (sum, step) => sum + step.Kind switch
    {
        StepKind.Gnrh => new Doses(1, 0, 0),
        StepKind.Pgf => new Doses(0, 1, 0),
        StepKind.InsertIn => new Doses(0, 0, 1),
        _ => default,
    });

    private static List<double> Weekdays(List<CheckChain> firsts) =>
    [
        .. Enumerable.Range(1, 7).Select(weekday => firsts.Count == 0
            ? 1 / 7.0
            : firsts.Count(c => (int)Day.From(c.Insemination!.At.Date).Weekday == weekday) / (double)firsts.Count),
    ];
}
