using ReproLink.Calendar.Dates;

namespace ReproLink.Records;

/// <summary>Which tubes were ever labelled, and for whom, read round by round as they are asked for.</summary>
public sealed class TubeRegister
{
    private readonly Connection _connection;
    private readonly long _herd;
    private readonly Dictionary<int, Round?> _rounds = [];
    private readonly Dictionary<Day, ILookup<string, Tube>> _days = [];

    internal TubeRegister(Connection connection, long herd) => (_connection, _herd) = (connection, herd);

    /// <summary>A round; null = the herd has none of that number.</summary>
    public Round? Find(int round)
    {
        if (!_rounds.TryGetValue(round, out var found))
        {
            _rounds[round] = found = RoundRows.Find(_connection, _herd, round);
        }

        return found;
    }

    /// <summary>The tubes labelled for an animal in the rounds of a day.</summary>
    public IEnumerable<Tube> Of(string animal, Day day)
    {
        if (!_days.TryGetValue(day, out var tubes))
        {
            _days[day] = tubes = RoundRows.On(_connection, _herd, day).SelectMany(r => r.Tubes).ToLookup(t => t.Animal, StringComparer.Ordinal);
        }

        return tubes[animal];
    }
}
