using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Figures;

/// <summary>From service to known open to next service, and what became of planned steps.</summary>
internal sealed class WorkFigures(FigureQuestion question, AnswerDays answers) : IFigures
{
    private static readonly (StepEnd End, string Key, string Label)[] Ends =
    [
        (StepEnd.OnTime, "on-time", "on time"), (StepEnd.Late, "late", "late, within its tolerance"), (StepEnd.Assumed, "taken-as-done", "not recorded, taken as done"),
        (StepEnd.Missed, "missed", "missed"), (StepEnd.NotDone, "not-done", "reported as not done"),
    ];

    private readonly Tally _toOpen = new(question.Detail == "service-to-open");
    private readonly Tally _toNext = new(question.Detail == "service-to-open");
    private readonly Tally _both = new(question.Detail == "service-to-open");
    private readonly List<(StepRecord Step, string Animal)> _steps = [];

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        _steps.AddRange(steps.Where(s => s.Day >= question.From && s.Day <= question.To).Select(s => (s, lactation.Animal)));
        for (var i = 0; i < lactation.Services.Count; i++)
        {
            var service = lactation.Services[i];
            if (service is { KnownOpenOn: { } known } && service.Day >= question.From && service.Day <= question.To)
            {
                Follow(lactation, service, known, lactation.Services.ElementAtOrDefault(i + 1));
            }
        }
    }

    public IEnumerable<Figure> Figures() =>
    [
        new(FigureBook.Get("service-to-open"),
        [
            _toOpen.Mean("to-known-open", "days from service to known open"),
            _toNext.Mean("to-next-service", "days from known open to next service"),
            _both.Mean("both", "days from service to next service"),
        ]),
        new(FigureBook.Get("steps"), [.. Of(null), .. _steps.Select(s => s.Step.Kind).Distinct().Order().SelectMany(k => Of(k))]),
    ];

    private void Follow(LactationRecord lactation, ServiceRecord service, Dates.Day known, ServiceRecord? next)
    {
        var (animal, fact) = (lactation.Animal, service.Fact.Id);
        // Of services as recent, only those known open early could be counted: they would make the days look few.
        LeftOutReason? without = answers.IsPending(service.Day) ? LeftOutReason.Pending
            : next is not null && next.Day < known ? LeftOutReason.ServedBeforeAnswer
            : null;
        if (without is { } reason)
        {
            foreach (var tally in new[] { _toOpen, _toNext, _both })
            {
                tally.LeaveOut(reason, animal, service.Day, fact);
            }

            return;
        }

        _toOpen.AddDays(known - service.Day, animal, service.Day, fact);
        if (next is not null)
        {
            _toNext.AddDays(next.Day - known, animal, service.Day, fact);
            _both.AddDays(next.Day - service.Day, animal, service.Day, fact);
            return;
        }

        var why = lactation.LeftOn is not null ? LeftOutReason.Left : lactation.NotBredFrom is not null ? LeftOutReason.NotToBeBred : LeftOutReason.NotServedAgain;
        _toNext.LeaveOut(why, animal, service.Day, fact);
        _both.LeaveOut(why, animal, service.Day, fact);
    }

    private IEnumerable<FigureLine> Of(StepKind? kind)
    {
        foreach (var (end, key, label) in Ends)
        {
            var tally = new Tally(question.Detail == "steps");
            foreach (var (step, animal) in _steps)
            {
                if (kind is not null && step.Kind != kind)
                {
                    continue;
                }

                if (step.End is StepEnd.FellAway or StepEnd.Withheld)
                {
                    tally.LeaveOut(step.End == StepEnd.FellAway ? LeftOutReason.FellAway : LeftOutReason.Withheld, animal, step.Day, step.Fact);
                }
                else
                {
                    tally.Count(step.End == end, animal, step.Day, step.Fact);
                }
            }

            var what = kind is { } one ? ProtocolWords.Of(one) : "all";
            yield return tally.Share($"{what}-{key}", $"{Words(kind)}: {label}");
        }
    }

    private static string Words(StepKind? kind) => kind switch
    {
        null => "all steps",
        StepKind.Gnrh => "GnRH",
        StepKind.Pgf => "prostaglandin",
        StepKind.InsertIn => "progesterone insert in",
        StepKind.InsertOut => "progesterone insert out",
        StepKind.Inseminate => "insemination",
        _ => "watching for oestrus",
    };
}
