using ReproLink.Api.Facts;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Rounds;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Rounds;

/// <summary>Rounds to answers.</summary>
/// <param name="herd">The herd.</param>
/// <param name="find">An animal; none while a write is being answered, where results are not looked at.</param>
internal sealed class RoundMapping(Herd herd, Func<string, AnimalState?> find)
{
    public static RoundMapping WithoutResults(Herd herd) => new(herd, _ => null);

    public static RoundMapping Of(HerdView view) => new(view.Herd, view.Find);

    public RoundSummary Summary(Round round) => new()
    {
        Round = RoundVocabulary.Name(round.Number),
        Date = round.Day.Date,
        Name = round.Name,
        Specimen = round.Specimen,
        State = State(round),
        Counts = Counts(round),
        Created = round.Created,
        CreatedBy = round.CreatedBy,
    };

    public RoundDetail Detail(Round round) => new()
    {
        Herd = herd.Name,
        Round = RoundVocabulary.Name(round.Number),
        Date = round.Day.Date,
        Name = round.Name,
        Specimen = round.Specimen,
        State = State(round),
        Counts = Counts(round),
        Created = round.Created,
        CreatedBy = round.CreatedBy,
        Tubes = [.. round.Tubes.Select(Tube)],
        Dispatches = [.. round.Dispatches.Select(d => new DispatchLine
        {
            Dispatch = d.Number,
            At = d.At,
            By = d.By,
            Tubes = round.Tubes.Count(t => t.Standing.Dispatched?.Dispatch == d.Number),
        })],
        Supplies = Supply(Supplies.For(round.Tubes.Count(t => t.Standing.State == TubeState.Planned))),
        Checklist = [.. Checklist.Lines.Select(l => new ChecklistAnswer { When = l.When, Text = l.Text, Basis = l.Basis })],
    };

    public TubeAnswer Tube(Tube tube)
    {
        var (marked, left) = (tube.Standing.Marked, tube.Standing.Dispatched);
        return new TubeAnswer
        {
            Tube = tube.Name,
            Animal = tube.Animal,
            Pen = tube.Plan.Pen,
            State = RoundVocabulary.States.Word(tube.Standing.State),
            Need = tube.Plan.Need,
            DaysPostService = tube.Plan.DaysPostService,
            Date = marked?.Day.Date,
            Time = marked?.Time,
            By = marked?.By,
            Reason = marked?.Reason is { } reason ? RoundVocabulary.Reasons.Word(reason) : null,
            Redraws = tube.Redraws is { } old ? TubeNames.Of(tube.Round, old) : null,
            Dispatch = left?.Dispatch,
            Dispatched = left?.Day.Date,
            TooOld = tube.Standing.IsSpoiled ? true : null,
            Result = ResultOf(tube) is { } result
                ? new TubeResult { FactId = result.Id.ToString(), Outcome = result.Outcome is { } o ? FactVocabulary.Outcomes.Word(o) : null }
                : null,
        };
    }

    public RoundCounts Counts(Round round) => new()
    {
        Tubes = round.Tubes.Count,
        Planned = Count(round, TubeState.Planned),
        Drawn = round.Tubes.Count(t => t.Standing.HasBlood),
        Short = Count(round, TubeState.Short),
        NotDrawn = Count(round, TubeState.NotDrawn),
        Broken = Count(round, TubeState.Broken),
        ToDispatch = round.Tubes.Count(t => t.Standing.WaitsForDispatch),
        Answered = round.Tubes.Count(t => ResultOf(t) is not null),
    };

    /// <summary>Where a round stands.</summary>
    public RoundState StateOf(Round round) => RoundStates.Of([.. round.Tubes.Select(t => (t.Standing, ResultOf(t) is not null))]);

    private string State(Round round) => RoundVocabulary.Word(StateOf(round));

    /// <summary>The result of a tube: the one that names it, or one that names none and is of the animal's sample of that day.</summary>
    public TestResult? ResultOf(Tube tube) => tube.Standing is { HasBlood: true, Marked: { } drawn } && find(tube.Animal) is { } animal
        ? animal.History.Facts.OfType<TestResult>().LastOrDefault(r => r.Tube == tube.Name || (r.Tube is null && r.Day == drawn.Day))
        : null;

    private static int Count(Round round, TubeState state) => round.Tubes.Count(t => t.Standing.State == state);

    private static SuppliesAnswer Supply(Supplies supplies) => new()
    {
        Needles = supplies.Needles,
        Tubes = supplies.Tubes,
        Labels = supplies.Labels,
        SharpsContainers = supplies.SharpsContainers,
    };
}
