using Dapper;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <summary>
/// Writes rounds inside a request of the writer. Whatever puts blood into a tube, takes it out or sends it off appends or
/// withdraws the sample fact in the same transaction: the calendar sees facts only.
/// </summary>
internal sealed partial class RoundWriter(WriteUnit unit, long herd, Instant recorded, string by)
{
    private const string TakenOut = "the tube holds no blood";

    public RoundAnswer Freeze(RoundPlan plan)
    {
        var planned = plan.SkipPlanned ? RoundRows.PlannedOn(unit.Connection, herd, plan.Day) : new HashSet<string>();
        var tubes = plan.Tubes.Where(t => !planned.Contains(t.Animal)).ToList();
        if (tubes.Count == 0)
        {
            return new RoundAnswer(RoundStatus.Nothing, null);
        }

        var round = unit.Connection.Sqlite.ExecuteScalar<int>("SELECT COALESCE(MAX(round), 0) + 1 FROM round WHERE herd = @herd", new { herd });
        var sequence = Change(round);
        Insert(unit.Connection, herd, sequence, new KeptRound(sequence, round, plan.Day, plan.Name, plan.Specimen, by, recorded));
        for (var i = 0; i < tubes.Count; i++)
        {
            AddTube(round, i + 1, tubes[i], null, sequence);
        }

        return new RoundAnswer(RoundStatus.Done, RoundRows.Find(unit.Connection, herd, round));
    }

    /// <summary>A late addition. Her other tube in the round, if any, must be settled.</summary>
    public RoundAnswer Add(int number, TubePlan plan)
    {
        if (RoundRows.Find(unit.Connection, herd, number) is not { } round)
        {
            return new RoundAnswer(RoundStatus.NoRound, null);
        }

        if (round.Tubes.FirstOrDefault(t => t.Animal == plan.Animal && (t.Standing.State == TubeState.Planned || t.Standing.HasBlood)) is { } other)
        {
            return new RoundAnswer(RoundStatus.HasTube, round, other.Number);
        }

        return Added(round, plan, null);
    }

    /// <summary>Her blood goes into a new tube; the old one is given up.</summary>
    public RoundAnswer Redraw(int number, int tube)
    {
        if (RoundRows.Find(unit.Connection, herd, number) is not { } round)
        {
            return new RoundAnswer(RoundStatus.NoRound, null);
        }

        if (round.Find(tube) is not { } old)
        {
            return new RoundAnswer(RoundStatus.NoTube, round);
        }

        if (old.Standing is { Dispatched: not null, HasBlood: true })
        {
            return new RoundAnswer(RoundStatus.AlreadyDispatched, round, tube);
        }

        if (round.Tubes.FirstOrDefault(t => t.Number != tube && t.Animal == old.Animal && (t.Standing.State == TubeState.Planned || t.Standing.HasBlood)) is { } other)
        {
            return new RoundAnswer(RoundStatus.HasTube, round, other.Number);
        }

        if (old.Standing.State is not (TubeState.Broken or TubeState.NotDrawn))
        {
            Write(old, new TubeMarked(recorded, TubeState.Broken, round.Day) { By = by }, round.Specimen);
        }

        return Added(round, old.Plan, tube);
    }

    public RoundAnswer Mark(int number, int tube, TubeMarked mark, TubeState? was)
    {
        if (RoundRows.Find(unit.Connection, herd, number) is not { } round)
        {
            return new RoundAnswer(RoundStatus.NoRound, null);
        }

        if (round.Find(tube) is not { } found)
        {
            return new RoundAnswer(RoundStatus.NoTube, round);
        }

        if (found.Standing.Marked is { } before && before with { Recorded = mark.Recorded } == mark)
        {
            return new RoundAnswer(RoundStatus.Unchanged, round, tube);
        }

        if (was is { } seen && seen != found.Standing.State)
        {
            return new RoundAnswer(RoundStatus.Changed, round, tube);
        }

        if (!found.Standing.MayBecome(mark.State))
        {
            return new RoundAnswer(RoundStatus.AlreadyDispatched, round, tube);
        }

        Write(found, mark, round.Specimen);
        return new RoundAnswer(RoundStatus.Done, RoundRows.Find(unit.Connection, herd, number), tube);
    }

    /// <summary>Sends tubes off; none named = all that wait. All of those named or none.</summary>
    public RoundAnswer Send(int number, IReadOnlyList<int>? tubes, Instant at, Day day, string sender)
    {
        if (RoundRows.Find(unit.Connection, herd, number) is not { } round)
        {
            return new RoundAnswer(RoundStatus.NoRound, null);
        }

        var sent = new List<Tube>();
        foreach (var tube in tubes ?? [.. round.Tubes.Where(t => t.Standing.WaitsForDispatch).Select(t => t.Number)])
        {
            if (round.Find(tube) is not { } found || !found.Standing.WaitsForDispatch)
            {
                var why = round.Find(tube) is not { } there ? RoundStatus.NoTube
                    : there.Standing is { HasBlood: true, Dispatched: not null } ? RoundStatus.AlreadyDispatched
                    : RoundStatus.NoBlood;
                return new RoundAnswer(why, round, tube);
            }

            sent.Add(found);
        }

        return sent.Count == 0 ? new RoundAnswer(RoundStatus.Nothing, round) : Sent(round, sent, at, day, sender);
    }

    private RoundAnswer Sent(Round round, List<Tube> tubes, Instant at, Day day, string sender)
    {
        var dispatch = round.Dispatches.Count + 1;
        var sequence = Change(round.Number);
        unit.Connection.Sqlite.Execute(
            "INSERT INTO dispatch (herd, round, dispatch, sequence, recorded, at, sent_by) VALUES (@herd, @Number, @dispatch, @sequence, @now, @left, @sender)",
            new { herd, round.Number, dispatch, sequence, now = Ticks.Of(recorded), left = Ticks.Of(at), sender });
        foreach (var tube in tubes)
        {
            AddEvent(tube, sequence, TubeEventRow.Left, day, FactEncoder.NoTime, sender, null, dispatch);
            Put(tube, tube.Standing.Marked!, round.Specimen, day);
        }

        return new RoundAnswer(RoundStatus.Done, RoundRows.Find(unit.Connection, herd, round.Number), null, dispatch);
    }

    private RoundAnswer Added(Round round, TubePlan plan, int? redraws)
    {
        var number = round.Tubes.Count + 1;
        AddTube(round.Number, number, plan, redraws, Change(round.Number));
        return new RoundAnswer(RoundStatus.Done, RoundRows.Find(unit.Connection, herd, round.Number), number);
    }

    private void Write(Tube tube, TubeMarked mark, string specimen)
    {
        var time = mark.Time is { } t ? (int)(t.TickOfDay / NodaConstants.TicksPerMillisecond) : FactEncoder.NoTime;
        AddEvent(tube, Change(tube.Round), (int)mark.State, mark.Day, time, mark.By, (int?)mark.Reason, null);
        if (mark.State is TubeState.Drawn or TubeState.Short)
        {
            Put(tube, mark, specimen, dispatched: null);
        }
        else
        {
            FactAppender.WithdrawStanding(unit, herd, Storage.Source, tube.Name, recorded, TakenOut);
        }
    }

    private void Put(Tube tube, TubeMarked drawn, string specimen, Day? dispatched) =>
        new Intake(unit, herd, recorded).Append(new FactDraft(tube.Animal, new Sample(drawn.Day)
        {
            Source = Storage.Source,
            SourceId = tube.Name,
            Time = drawn.Time,
            Specimen = specimen,
            Tube = tube.Name,
            Dispatched = dispatched,
        }));

    private long Change(int round) => unit.Change(herd, recorded, ChangeKind.Round, animal: null, round);

    private void AddTube(int round, int number, TubePlan plan, int? redraws, long sequence) =>
        Insert(unit.Connection, herd, sequence, new KeptTube(sequence, round, number, plan, redraws, by, recorded));

    private void AddEvent(Tube tube, long sequence, int state, Day day, int time, string? doneBy, int? reason, int? dispatch) =>
        Insert(unit.Connection, herd, sequence, tube.Round, tube.Number, recorded, state, day, time, doneBy, reason, dispatch);
}
