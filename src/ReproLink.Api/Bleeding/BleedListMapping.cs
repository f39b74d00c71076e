using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Api.Programmes;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Api.Bleeding;

internal static class BleedListMapping
{
    public static BleedListAnswer Answer(BleedList list, HerdView view, string? pen, bool withAll) => new()
    {
        Herd = view.Herd.Name,
        AsOf = list.AsOf.Date,
        KnownAt = view.KnownAt,
        From = list.From.Date,
        To = list.To.Date,
        Pen = pen,
        Programme = ProgrammeNote.Of(view.Rules.HasSavedProgramme),
        Days = [.. list.Days.Select(Of)],
        NotListed = [.. list.NotListed.Select(rest => Of(rest, withAll))],
        Cautions = Cautions.All,
    };

    private static BleedDayAnswer Of(BleedDay day) => new()
    {
        Date = day.Date.Date,
        Weekday = ProgrammeVocabulary.Weekdays.Word(day.Date.Weekday),
        Animals = [.. day.Animals.Select(line => Of(line, day))],
        Totals = new BleedTotals { Animals = day.Count, Tubes = day.Count, Labels = day.Count, Needles = day.Needles },
    };

    private static BleedAnimalAnswer Of(BleedLine line, BleedDay day)
    {
        var state = line.State;
        return new BleedAnimalAnswer
        {
            Animal = state.Animal,
            Pen = state.Card?.Pen,
            Identifiers = FactMapping.Identifiers(state.Card?.Identifiers ?? []),
            DaysPostService = state.DaysPostService(day.Date),
            DaysInMilk = state.DaysInMilk(day.Date),
            Parity = state.Parity,
            Need = AnswerWords.Of(line.Answer.Verdict.Need!.Value),
            Window = WindowContract.Of(line.Answer),
            Overdue = line.Answer.Verdict.Overdue,
            Moved = line.Moved ? true : null,
            Serves = line.Serves is { } serves ? new ServesAnswer { Step = ProtocolWords.Of(serves.Step), Date = serves.Date.Date } : null,
            Reasons = [.. line.Answer.Reasons.Select(ReasonContract.Of)],
        };
    }

    private static NotListedAnswer Of(CountedRest rest, bool withAll) => new()
    {
        Answer = AnswerWords.Of(rest.Answer),
        Reason = rest.Reason,
        Count = rest.Animals.Count,
        Animals = withAll
            ? [.. rest.Animals.Select(a => new NotListedAnimal { Animal = a.Animal, Pen = a.Card?.Pen, Status = StatusWords.Of(a.Status) })]
            : null,
    };
}
