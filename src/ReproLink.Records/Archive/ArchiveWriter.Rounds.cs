using Dapper;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <content>Rounds.</content>
internal sealed partial class ArchiveWriter
{
    private readonly Dictionary<int, (int Tubes, int Dispatches)> _rounds = [];

    private void Put(KeptRound round, long sequence)
    {
        RoundWriter.Insert(unit.Connection, herd, sequence, round);
        _rounds.Add(round.Round, default);
    }

    private void Put(KeptTube tube, long sequence)
    {
        // A tube is found by its number: they have no gaps.
        var round = RoundOf(tube.Round);
        if (tube.Number != round.Tubes + 1 || tube.Redraws >= tube.Number)
        {
            throw new ArchiveContradictionException($"the tube {TubeNames.Of(tube.Round, tube.Number)} is not the next of its round");
        }

        RoundWriter.Insert(unit.Connection, herd, sequence, tube);
        _rounds[tube.Round] = round with { Tubes = tube.Number };
    }

    private void Put(KeptTubeEvent happened, long sequence)
    {
        var round = RoundOf(happened.Round);
        if (happened.Number < 1 || happened.Number > round.Tubes || (happened.Event is TubeDispatched left && (left.Dispatch < 1 || left.Dispatch > round.Dispatches)))
        {
            throw new ArchiveContradictionException($"something happened to the tube {TubeNames.Of(happened.Round, happened.Number)} before it was there, or it left in no dispatch");
        }

        RoundWriter.Insert(unit.Connection, herd, sequence, happened);
    }

    private void Put(KeptDispatch dispatch, long sequence)
    {
        var round = RoundOf(dispatch.Round);
        if (dispatch.Number != round.Dispatches + 1)
        {
            throw new ArchiveContradictionException($"the dispatch {dispatch.Number} is not the next of the round {dispatch.Round}");
        }

        unit.Connection.Sqlite.Execute(
            "INSERT INTO dispatch (herd, round, dispatch, sequence, recorded, at, sent_by) VALUES (@herd, @Round, @Number, @sequence, @now, @left, @By)",
            new { herd, dispatch.Round, dispatch.Number, sequence, now = Ticks.Of(dispatch.At), left = Ticks.Of(dispatch.Left), dispatch.By });
        _rounds[dispatch.Round] = round with { Dispatches = dispatch.Number };
    }

    private (int Tubes, int Dispatches) RoundOf(int round) => _rounds.TryGetValue(round, out var known)
        ? known
        : throw new ArchiveContradictionException($"there is no round {round} before its tubes");
}
