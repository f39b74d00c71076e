using System.Globalization;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;

namespace ReproLink.Api.Rounds;

/// <summary>What a write to a round is answered with; made inside the transaction, so nothing is read here.</summary>
internal sealed class RoundReplies(Herd herd, string asked)
{
    /// <summary>What may stand in the way of saying something of a tube.</summary>
    public static readonly ProblemType[] Conflicts =
        [ProblemTypes.TubeDispatched, ProblemTypes.TubeWithoutBlood, ProblemTypes.NothingToDispatch, ProblemTypes.TubeOpen, ProblemTypes.TubeChanged];

    private readonly RoundMapping _mapping = RoundMapping.WithoutResults(herd);

    public StoredAnswer Frozen(RoundAnswer answer) => answer.Status == RoundStatus.Nothing
        ? Problem.Of(ProblemTypes.NothingToFreeze, "No animal is on the bleed list of that day that is not in another round of it already. Name the animals to bleed them all the same.").Keep()
        : IdempotencyHeader.Keep(201, _mapping.Detail(answer.Round!));

    public StoredAnswer Added(RoundAnswer answer) => Refusal(answer)?.Keep() ?? IdempotencyHeader.Keep(201, Marked(answer, answer.Round!.Find(answer.Tube!.Value)!, []));

    public StoredAnswer Marked(RoundAnswer answer)
    {
        if (Refusal(answer) is { } refusal)
        {
            return refusal.Keep();
        }

        var tube = answer.Round!.Find(answer.Tube!.Value)!;
        return IdempotencyHeader.Keep(200, Marked(answer, tube, Warnings(answer.Round, tube)));
    }

    public StoredAnswer Sent(RoundAnswer answer, HerdRules rules)
    {
        if (Refusal(answer) is { } refusal)
        {
            return refusal.Keep();
        }

        var round = answer.Round!;
        var dispatch = round.Dispatches[answer.Dispatch!.Value - 1];
        var tubes = round.Tubes.Where(t => t.Standing.Dispatched?.Dispatch == dispatch.Number).ToList();
        var left = tubes[0].Standing.Dispatched!.Day;
        var report = tubes.Select(t => rules.Laboratory.Report(t.Standing.Marked!.Day, left)).Where(r => r is not null).Max(r => r?.Day);
        var time = tubes.Select(t => rules.Laboratory.Report(t.Standing.Marked!.Day, left)).FirstOrDefault(r => r?.Day == report)?.Time;
        return IdempotencyHeader.Keep(201, new DispatchAnswer
        {
            Round = RoundVocabulary.Name(round.Number),
            Dispatch = dispatch.Number,
            At = dispatch.At,
            By = dispatch.By,
            Tubes = [.. tubes.Select(_mapping.Tube)],
            ExpectedReport = report is { } day && time is { } at ? new ExpectedReportAnswer { Date = day.Date, Time = at } : null,
            Warnings = [.. StorageWarnings(tubes), .. WayWarnings(left, rules)],
        });
    }

    private static IEnumerable<string> StorageWarnings(List<Tube> tubes)
    {
        foreach (var tube in tubes)
        {
            var days = tube.Standing.Dispatched!.Day - tube.Standing.Marked!.Day;
            if (tube.Standing.IsSpoiled)
            {
                yield return $"L3: {tube.Name} of {tube.Animal} left {days} days after it was drawn: after {Storage.MostDays} days its result decides nothing. Draw her again.";
            }
            else if (tube.Standing.State == TubeState.Short)
            {
                yield return $"{tube.Name} of {tube.Animal} is short: the laboratory may find it too little.";
            }
        }
    }

    private static IEnumerable<string> WayWarnings(Calendar.Dates.Day left, HerdRules rules)
    {
        if (!rules.WorkDaysOn(left).IsDispatch(left))
        {
            yield return $"L1: {left} is no dispatch day of the programme; the report may take longer than expected.";
        }
    }

    /// <summary>What is odd about a tube as it stands.</summary>
    public static IEnumerable<string> Warnings(Round round, Tube tube)
    {
        var before = round.Tubes.Where(t => t.Number < tube.Number && t.Standing.State == TubeState.Planned).Select(t => t.Name).ToList();
        if (tube.Standing.HasBlood && before.Count > 0)
        {
            yield return $"Out of order: before it {(before.Count == 1 ? before[0] + " is" : $"{before[0]} and {before.Count - 1} more are")} still to be drawn. Read tag and label once more.";
        }

        if (tube.Standing.Marked is { } marked && tube.Standing.HasBlood && marked.Day != round.Day)
        {
            yield return $"Drawn on {marked.Day}; the round is of {round.Day}.";
        }

        if (tube.Standing is { State: TubeState.Broken, Dispatched: not null })
        {
            yield return "It had left: a result that comes of it all the same will be held.";
        }
    }

    private TubeMarkAnswer Marked(RoundAnswer answer, Tube tube, IEnumerable<string> warnings) => new()
    {
        Tube = _mapping.Tube(tube),
        Next = answer.Round!.Tubes.FirstOrDefault(t => t.Standing.State == TubeState.Planned)?.Name,
        Counts = _mapping.Counts(answer.Round),
        Warnings = [.. warnings],
    };

    private Problem? Refusal(RoundAnswer answer) => answer.Status switch
    {
        RoundStatus.NoRound => NoRound(asked),
        RoundStatus.NoTube => Problem.Of(ProblemTypes.TubeNotFound, $"Round {RoundVocabulary.Name(answer.Round!.Number)} has no such tube."),
        RoundStatus.AlreadyDispatched => Problem.Of(ProblemTypes.TubeDispatched, $"{Name(answer)} has left the farm: only 'broken' can be said of it."),
        RoundStatus.NoBlood => Problem.Of(ProblemTypes.TubeWithoutBlood, $"{Name(answer)} has no blood in it. Nothing was dispatched."),
        RoundStatus.Nothing => Problem.Of(ProblemTypes.NothingToDispatch, "No tube of the round waits to leave."),
        RoundStatus.Changed => Problem.Of(ProblemTypes.TubeChanged, $"{Name(answer)} is on record as {Standing(answer.Round!.Find(answer.Tube!.Value)!)}; you had not seen that. Nothing was recorded."),
        RoundStatus.HasTube => Problem.Of(ProblemTypes.TubeOpen, $"She has the tube {Name(answer)} in this round: settle it first, or draw it again with 'redraws'."),
        _ => null,
    };

    public static Problem NoRound(string asked) => Problem.Of(ProblemTypes.RoundNotFound, $"The herd has no round '{asked}'.");

    public static Problem NoTube(string round, string asked) => Problem.Of(ProblemTypes.TubeNotFound, $"Round {round} has no tube '{asked}'.");

    /// <summary>Where a tube stands, with who said so and when.</summary>
    private static string Standing(Tube tube)
    {
        var said = RoundVocabulary.States.Word(tube.Standing.State).Replace('-', ' ');
        return tube.Standing.Marked is { } marked
            ? $"{said}{(marked.By is { } by ? $" by {by}" : "")}, {marked.Day}{(marked.Time is { } time ? $" {time.ToString("HH':'mm", CultureInfo.InvariantCulture)}" : "")}"
            : said;
    }

    private static string Name(RoundAnswer answer) => TubeNames.Of(answer.Round!.Number, answer.Tube!.Value);
}
