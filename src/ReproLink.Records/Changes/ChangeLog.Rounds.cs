using NodaTime;

namespace ReproLink.Records;

/// <content>When rounds last changed.</content>
public sealed partial class ChangeLog
{
    /// <summary>By the round's number: when something last happened to it.</summary>
    public IReadOnlyDictionary<int, Instant> LastChangesOfRounds(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection =>
        {
            var rounds = new Dictionary<int, Instant>();
            var rows = connection.Prepared("SELECT subject, max(recorded) FROM change WHERE herd = ?1 AND kind = 9 GROUP BY subject").Bind(1, herd.Id);
            while (rows.Step())
            {
                rounds.Add(rows.Int(0), Ticks.From(rows.Long(1)));
            }

            return rounds;
        });
    }
}
