using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures.Accuracy;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>One rate of the herd, as counted.</summary>
/// <param name="Line">Numerator, denominator, limits and what was left out.</param>
/// <param name="Sentence">What is counted of what.</param>
/// <param name="Figure">The figure it is a line of, for the animals behind it; absent = it is none.</param>
public sealed record OwnRate(FigureLine Line, string Sentence, string? Figure)
{
    /// <summary>The rate; null = out of none.</summary>
    public Estimate? Estimate => Line.Value is not { } value ? null
        : Line.Unit == FigureUnit.Share ? Estimates.Estimate.Of(new Proportion(Line.Numerator, Line.Denominator), EstimateOrigin.Herd)
        : new Estimate(value, Line.Limits, EstimateOrigin.Herd);
}

/// <summary>The rates of a herd's cows that a what-if reckons with, counted by the definitions of its figures.</summary>
public sealed record HerdOwnRates
{
    /// <summary>Days a service needs until its outcome should be known: later ones would count their failures, which show first, and not their pregnancies.</summary>
    public const int SettledDays = 60;

    /// <summary>Days until a pregnancy should have been looked at again.</summary>
    public const int RecheckedDays = 120;

    /// <summary>Length of the usual period: a year.</summary>
    public const int UsualDays = 365;

    /// <summary>First day of the services counted.</summary>
    public required Day From { get; init; }

    /// <summary>Last day of the services counted.</summary>
    public required Day To { get; init; }

    /// <summary>Last day of the calvings, and of the services whose losses, are counted.</summary>
    public required Day RecheckedTo { get; init; }

    /// <summary>Days to first service.</summary>
    public required OwnRate FirstServiceDays { get; init; }

    /// <summary>Conception risk of first services.</summary>
    public required OwnRate PregnantFirst { get; init; }

    /// <summary>Conception risk of later services.</summary>
    public required OwnRate PregnantLater { get; init; }

    /// <summary>Failed services after which the cow was served again before the first test day.</summary>
    public required OwnRate Returns { get; init; }

    /// <summary>Pregnancies lost between first test and recheck.</summary>
    public required OwnRate Loss { get; init; }

    /// <summary>What first tests said.</summary>
    public required FirstTests FirstTests { get; init; }

    /// <summary>The last day whose services are settled on a day.</summary>
    public static Day LastSettled(Day asOf) => asOf - SettledDays;

    /// <summary>Counts the rates. Time grows with the number of facts.</summary>
    /// <param name="animals">The herd, folded for <paramref name="asOf"/>.</param>
    /// <param name="rules">Its rules.</param>
    /// <param name="asOf">The day they are counted on.</param>
    /// <param name="knownAt">The moment whose knowledge they rest on.</param>
    /// <param name="from">First day of services; absent = a year before <paramref name="to"/>.</param>
    /// <param name="to">Last day of services; absent = the last settled.</param>
    public static HerdOwnRates Of(IReadOnlyList<AnimalState> animals, HerdRules rules, Day asOf, Instant knownAt, Day? from = null, Day? to = null)
    {
        ArgumentNullException.ThrowIfNull(animals);
        ArgumentNullException.ThrowIfNull(rules);
        var last = to ?? LastSettled(asOf);
        var first = from ?? last - (UsualDays - 1);
        var rechecked = Day.Min(last, asOf - RecheckedDays);
        var (services, lactations) = (new FigureQuestion(first, last), new FigureQuestion(Day.Min(first, rechecked), rechecked));
        var (risk, firsts, losses) = (new ServiceFigures(services, new AnswerDays(rules, asOf)), new LactationFigures(lactations), new LossFigures(lactations));
        var (returns, tests) = (new ReturnTally(services, rules), new FirstTestTally(services, rules));
        foreach (var animal in animals.Where(a => a.Exists))
        {
            foreach (var lactation in AnimalRecord.Of(animal, rules, knownAt, null))
            {
                risk.Add(lactation, []);
                firsts.Add(lactation, []);
                losses.Add(lactation, []);
                returns.Add(lactation);
                tests.Add(lactation);
            }
        }

        var conception = risk.Figures().First(f => f.Id == "conception-risk");
        return new HerdOwnRates
        {
            From = first,
            To = last,
            RecheckedTo = rechecked,
            FirstServiceDays = Rate(firsts.Figures().First(f => f.Id == "days-to-first-service"), "all"),
            PregnantFirst = Rate(conception, "first"),
            PregnantLater = Rate(conception, "later"),
            Returns = new OwnRate(returns.Line, ReturnTally.Sentence, null),
            Loss = Rate(losses.Figures().First(f => f.Id == "loss"), "early"),
            FirstTests = tests.Counted,
        };
    }

    private static OwnRate Rate(Figure figure, string line) => new(figure.Line(line)!, figure.Definition.Sentence, figure.Id);

    /// <summary>Counts failed services after which the cow came back by herself.</summary>
    private sealed class ReturnTally(FigureQuestion question, HerdRules rules)
    {
        public const string Sentence =
            "Services of cows in the period that failed, as far as is known how: of them, those after which the cow was served again before the first day on which a test would count.";

        private readonly Tally _tally = new(keep: false);

        public FigureLine Line => _tally.Share("returns", "failed services, served again before the test");

        public void Add(LactationRecord lactation)
        {
            for (var i = 0; i < lactation.Services.Count; i++)
            {
                var service = lactation.Services[i];
                if (lactation.Calved is null || service.Day < question.From || service.Day > question.To || service.Outcome != ServiceOutcome.Open)
                {
                    continue;
                }

                var next = i + 1 < lactation.Services.Count ? lactation.Services[i + 1].Day - service.Day : (int?)null;
                if (next is null && service.KnownOpenOn is null)
                {
                    _tally.LeaveOut(LeftOutReason.NotServedAgain, lactation.Animal, service.Day);
                    continue;
                }

                _tally.Count(next < rules.On(service.Day).Programme.Test.MinDaysPostService, lactation.Animal, service.Day);
            }
        }
    }

    /// <summary>Counts what the first test after each service said.</summary>
    private sealed class FirstTestTally(FigureQuestion question, HerdRules rules)
    {
        private readonly Dictionary<Outcome, int> _said = [];

        public FirstTests Counted => new(Of(Outcome.Pregnant), Of(Outcome.Open), Of(Outcome.Recheck));

        public void Add(LactationRecord lactation)
        {
            for (var i = 0; i < lactation.Services.Count; i++)
            {
                var service = lactation.Services[i];
                if (service.Day < question.From || service.Day > question.To)
                {
                    continue;
                }

                var until = i + 1 < lactation.Services.Count ? lactation.Services[i + 1].Day : Day.Latest;
                var from = service.Day + rules.On(service.Day).Programme.Test.MinDaysPostService;
                var first = lactation.Log.Results.FindIndex(r => r.Fact is TestResult && r.Fact.Day >= from && r.Fact.Day < until && r.Decision != Decision.Nothing);
                if (first >= 0 && lactation.Log.Results[first].Outcome is { } said)
                {
                    _said[said] = Of(said) + 1;
                }
            }
        }

        private int Of(Outcome outcome) => _said.GetValueOrDefault(outcome);
    }
}
