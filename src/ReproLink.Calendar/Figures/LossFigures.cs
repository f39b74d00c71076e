using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures;

/// <summary>Pregnant, then open, between named days post-service.</summary>
internal sealed class LossFigures(FigureQuestion question) : IFigures
{
    // The days are named in the definition. An early one is found by the first test, the recheck follows from day 60 on;
    // a late one is still there then and looked at before dry-off.
    private const int RecheckFrom = 60;
    private const int RecheckTo = 120;
    private const int LateFrom = 180;
    private const int LateTo = 260;

    private readonly Tally _early = new(question.Detail == "loss");
    private readonly Tally _late = new(question.Detail == "loss");

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        foreach (var service in lactation.Services)
        {
            if (service.Outcome == ServiceOutcome.Pregnant && service.FoundOn is { } found && service.Day >= question.From && service.Day <= question.To)
            {
                var seen = Positives(service);
                if (found - service.Day < RecheckFrom)
                {
                    Count(_early, service, service.LostOn - service.Day <= RecheckTo, seen.Exists(d => d >= RecheckFrom) || Carried(service));
                }

                if (seen.Exists(d => d is >= RecheckFrom and <= RecheckTo))
                {
                    Count(_late, service, service.LostOn - service.Day is > RecheckFrom and <= LateTo, seen.Exists(d => d >= LateFrom) || Carried(service));
                }
            }
        }
    }

    public IEnumerable<Figure> Figures() =>
    [
        new(FigureBook.Get("loss"),
        [
            _early.Share("early", "found before day 60, no longer pregnant by day 120"),
            _late.Share("late", "pregnant on days 60-120, no longer by day 260"),
        ]),
    ];

    private static bool Carried(ServiceRecord service) => service.IsMaintained && service.Lactation.NextCalving is not null;

    private static void Count(Tally tally, ServiceRecord service, bool lost, bool kept)
    {
        var animal = service.Lactation.Animal;
        if (lost || kept)
        {
            tally.Count(lost, animal, service.Day, service.Fact.Id);
        }
        else
        {
            var left = service.Lactation.LeftOn is not null;
            tally.LeaveOut(left ? LeftOutReason.Left : LeftOutReason.NotRechecked, animal, service.Day, service.Fact.Id);
        }
    }

    // Days post-service on which she was found pregnant while the pregnancy stood.
    private static List<int> Positives(ServiceRecord service)
    {
        var days = new List<int>();
        foreach (var judged in service.Lactation.Log.Results)
        {
            if (judged.Decision == Decision.Pregnant && judged.Fact.Day >= service.FoundOn && !(judged.Fact.Day >= service.LostOn))
            {
                days.Add(judged.Fact.Day - service.Day);
            }
        }

        return days;
    }
}
