using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Figures.Statistics;
using Interval = ReproLink.Calendar.Figures.Statistics.Interval;

namespace ReproLink.Calendar.Figures;

/// <summary>Conception risk, overall and by what may bear on it, and services per conception.</summary>
internal sealed class ServiceFigures(FigureQuestion question, AnswerDays answers) : IFigures
{
    private const string NotOnRecord = "not on record";
    private const int LastNumber = 6;

    private readonly Tallies<int> _overall = new(question.Detail == "conception-risk", 0, 1, 2);
    private readonly Tally _heifers = new(question.Detail == "conception-risk-heifers");
    private readonly Tallies<int> _byNumber = new(question.Detail == "conception-risk-by-service");
    private readonly Tallies<string> _byProtocol = new(question.Detail == "conception-risk-by-protocol");
    private readonly Tallies<string> _bySire = new(question.Detail == "conception-risk-by-sire");
    private readonly Tallies<string> _byTechnician = new(question.Detail == "conception-risk-by-technician");
    private readonly Tallies<int> _byParity = new(question.Detail == "conception-risk-by-parity");
    private readonly Tallies<int> _byWeekday = new(question.Detail == "conception-risk-by-weekday");
    private readonly Tallies<string> _byMonth = new(question.Detail == "conception-risk-by-month");
    private readonly Tally _ofPregnant = new(question.Detail == "services-per-conception");
    private readonly Tally _found = new(question.Detail == "services-per-conception");
    private readonly Tally _kept = new(question.Detail == "services-per-conception");

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        foreach (var service in lactation.Services)
        {
            if (service.Day < question.From || service.Day > question.To)
            {
                continue;
            }

            if (lactation.Parity == 0 && lactation.Calved is null)
            {
                Count(_heifers, service);
                continue;
            }

            var date = service.Day.Date;
            Count(_overall[0], service);
            Count(_overall[service.Number == 1 ? 1 : 2], service);
            Count(_byNumber[Math.Min(service.Number, LastNumber)], service);
            Count(_byProtocol[service.Protocol ?? "other"], service);
            Count(_bySire[service.Fact.Sire ?? NotOnRecord], service);
            Count(_byTechnician[service.Fact.Technician ?? NotOnRecord], service);
            Count(_byParity[lactation.Parity ?? int.MaxValue], service);
            Count(_byWeekday[(int)service.Day.Weekday], service);
            Count(_byMonth[string.Create(CultureInfo.InvariantCulture, $"{date.Year:0000}-{date.Month:00}")], service);
            CountConceptions(service);
        }
    }

    public IEnumerable<Figure> Figures() =>
    [
        new(FigureBook.Get("conception-risk"), [.. _overall.Shares(Overall)]),
        new(FigureBook.Get("conception-risk-heifers"), [_heifers.Share("all", "all services of heifers")]),
        new(FigureBook.Get("conception-risk-by-service"), [.. _byNumber.Shares(n => n < LastNumber ? (Text(n), $"service {Text(n)}") : ($"{Text(n)}-or-later", $"service {Text(n)} or later"))]),
        new(FigureBook.Get("conception-risk-by-protocol"), [.. _byProtocol.Shares(p => (p, p == "other" ? "on oestrus or unplanned" : p))]),
        new(FigureBook.Get("conception-risk-by-sire"), [.. _bySire.Shares(s => (s, s))]),
        new(FigureBook.Get("conception-risk-by-technician"), [.. _byTechnician.Shares(t => (t, t))]),
        new(FigureBook.Get("conception-risk-by-parity"), [.. _byParity.Shares(p => p == int.MaxValue ? ("not-on-record", NotOnRecord) : (Text(p), $"lactation {Text(p)}"))]),
        new(FigureBook.Get("conception-risk-by-weekday"), [.. _byWeekday.Shares(d => (((IsoDayOfWeek)d).ToString().ToLowerInvariant(), ((IsoDayOfWeek)d).ToString()))]),
        new(FigureBook.Get("conception-risk-by-month"), [.. _byMonth.Shares(m => (m, m))]),
        new(FigureBook.Get("services-per-conception"),
        [
            PerConception(_ofPregnant, "of-pregnant", "services of pregnant cows, a cow"),
            PerConception(_found, "found", "services with a known outcome, a pregnancy found"),
            PerConception(_kept, "kept", "all services, a pregnancy kept"),
        ]),
    ];

    private void Count(Tally tally, ServiceRecord service)
    {
        if (service.Outcome == ServiceOutcome.Unknown || answers.IsPending(service.Day))
        {
            var why = service.Outcome == ServiceOutcome.Unknown ? service.Why : LeftOutReason.Pending;
            tally.LeaveOut(why, service.Lactation.Animal, service.Day, service.Fact.Id);
        }
        else
        {
            tally.Count(service.Outcome == ServiceOutcome.Pregnant, service.Lactation.Animal, service.Day, service.Fact.Id);
        }
    }

    private void CountConceptions(ServiceRecord service)
    {
        var (animal, day, fact) = (service.Lactation.Animal, service.Day, service.Fact.Id);
        Count(_found, service);
        if (answers.IsPending(day))
        {
            _kept.LeaveOut(LeftOutReason.Pending, animal, day, fact);
            return;
        }

        _kept.Count(service.IsMaintained, animal, day, fact);
        if (service.Lactation.Conceived is not null)
        {
            _ofPregnant.Count(service.IsMaintained, animal, day, fact);
        }
    }

    private static FigureLine PerConception(Tally tally, string key, string label)
    {
        var share = new Proportion(tally.Hits, tally.Of);
        return tally.Finish(new FigureLine(key, label, FigureUnit.Ratio, tally.Of, tally.Hits)
        {
            Value = tally.Hits > 0 ? 1 / share.Value : null,
            Limits = share.Wilson() is { Low: > 0 } limits ? new Interval(1 / limits.High, 1 / limits.Low) : null,
            Method = "reciprocal of the " + Tally.Wilson,
            NoValue = tally.Of > 0 ? "no pregnancy" : null,
        });
    }

    private static (string Key, string Label) Overall(int which) => which switch
    {
        0 => ("all", "all services"),
        1 => ("first", "first services"),
        _ => ("later", "second and later services"),
    };

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
