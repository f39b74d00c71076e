using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <summary>Who writes, and when.</summary>
public sealed record RoundHand(string By, Instant Now, Reply<RoundAnswer> Reply);

/// <summary>The sampling rounds of herds.</summary>
public sealed class RoundBook
{
    private readonly Writer _writer;
    private readonly Readers _readers;

    internal RoundBook(Writer writer, Readers readers) => (_writer, _readers) = (writer, readers);

    /// <summary>Freezes a list.</summary>
    public Task<Once<RoundAnswer>> Freeze(Herd herd, RoundPlan plan, RoundHand hand) => Write(herd, hand, w => w.Freeze(plan));

    /// <summary>A late addition.</summary>
    public Task<Once<RoundAnswer>> Add(Herd herd, int round, TubePlan plan, RoundHand hand) => Write(herd, hand, w => w.Add(round, plan));

    /// <summary>A new tube in the place of one of the round.</summary>
    public Task<Once<RoundAnswer>> Redraw(Herd herd, int round, int tube, RoundHand hand) => Write(herd, hand, w => w.Redraw(round, tube));

    /// <summary>Says what became of a tube; the sample fact follows.</summary>
    /// <param name="herd">The herd.</param>
    /// <param name="round">The round.</param>
    /// <param name="tube">The tube.</param>
    /// <param name="mark">What became of it.</param>
    /// <param name="hand">Who writes.</param>
    /// <param name="was">What the caller last saw of it; another state on record records nothing. Null = whatever it was.</param>
    public Task<Once<RoundAnswer>> Mark(Herd herd, int round, int tube, TubeMarked mark, RoundHand hand, TubeState? was = null) =>
        Write(herd, hand, w => w.Mark(round, tube, mark, was));

    /// <summary>Sends tubes off; null = all that wait.</summary>
    public Task<Once<RoundAnswer>> Send(Herd herd, int round, IReadOnlyList<int>? tubes, Instant at, Day day, string sender, RoundHand hand) =>
        Write(herd, hand, w => w.Send(round, tubes, at, day, sender));

    /// <summary>A round; null = the herd has none of that number.</summary>
    public Round? Find(Herd herd, int round)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => RoundRows.Find(connection, herd.Id, round));
    }

    /// <summary>Rounds, the latest first.</summary>
    public Page<Round> List(Herd herd, string? after, int limit)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var before = after is null ? int.MaxValue : Cursor.Read(after);
        var rounds = _readers.Read(connection => RoundRows.List(connection, herd.Id, before, limit + 1));
        var more = rounds.Count > limit;
        return new Page<Round>(more ? [.. rounds.Take(limit)] : rounds, more ? Cursor.Write(rounds[limit - 1].Number) : null);
    }

    /// <summary>Looks tubes up one after another, at one moment.</summary>
    public T Look<T>(Herd herd, Func<TubeRegister, T> look)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(look);
        return _readers.Read(connection => look(new TubeRegister(connection, herd.Id)));
    }

    private Task<Once<RoundAnswer>> Write(Herd herd, RoundHand hand, Func<RoundWriter, RoundAnswer> work)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(hand);
        return _writer.Write(unit => hand.Reply.Run(
            unit, herd.Id, hand.Now, () => work(new RoundWriter(unit, herd.Id, unit.Record(hand.Now), hand.By))));
    }
}
