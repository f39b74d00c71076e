using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <content>
/// Facts as events that other programs synchronise: one event a source and sourceId, in the order in which each became what
/// it is. A page goes on where the last ended, so what changes meanwhile comes once more at the end and nothing is passed over.
/// </content>
public sealed partial class ChangeLog
{
    private const string EventsSince =
        $"""
        SELECT {FactList.Columns}, c.kind, c.sequence, c.recorded, f.revision
        FROM change c JOIN fact f ON f.herd = c.herd AND f.fact = c.subject {FactList.Joins}
        WHERE c.herd = ?1 AND c.sequence > ?2 AND c.kind IN (2, 3) AND c.recorded BETWEEN ?3 AND ?4 AND (?5 >> f.kind) & 1
          AND CASE c.kind WHEN 2 THEN w.fact IS NULL ELSE ?6 END
        ORDER BY c.sequence
        """;

    /// <summary>A page of events.</summary>
    public Page<StoredEvent> Events(Herd herd, EventQuery query)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(query);
        var from = Cursor.Read(query.After);
        return _readers.Read(connection =>
        {
            var rows = connection.Prepared(EventsSince)
                .Bind(1, herd.Id).Bind(2, from).Bind(3, Ticks.Of(query.From) ?? long.MinValue).Bind(4, Ticks.Of(query.To) ?? long.MaxValue)
                .Bind(5, query.Kinds.Bits).Bind(6, query.From is null ? 0 : 1);
            var texts = new TextPool();
            var events = new List<StoredEvent>();
            long last = 0;
            while (rows.Step())
            {
                if (Read(connection, herd.Id, rows, texts, query) is not { } found)
                {
                    continue;
                }

                // One more than asked for tells that there is a next page.
                if (events.Count == query.Limit)
                {
                    return new Page<StoredEvent>(events, Cursor.Write(last));
                }

                events.Add(found);
                last = rows.Long(16);
            }

            return new Page<StoredEvent>(events, null);
        });
    }

    /// <summary>What each identity stands for now; identities of which nothing was ever sent are left out.</summary>
    public IReadOnlyDictionary<(string Source, string SourceId), StoredEvent> Latest(
        Herd herd, IEnumerable<(string Source, string SourceId)> identities)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(identities);
        return _readers.Read(connection =>
        {
            var found = new Dictionary<(string, string), StoredEvent>();
            foreach (var identity in identities)
            {
                if (!found.ContainsKey(identity) && Latest(connection, herd.Id, identity.Source, identity.SourceId) is { } latest)
                {
                    found.Add(identity, latest);
                }
            }

            return found;
        });
    }

    /// <summary>What the identity whose first fact has an id stands for now.</summary>
    public StoredEvent? LatestOf(Herd herd, FactId id)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection =>
            FactList.Find(connection, herd.Id, id) is { Fact: var fact } && EventId(fact) == id
                ? Latest(connection, herd.Id, fact.Source, fact.SourceId)
                : null);
    }

    /// <summary>When each animal, and what governs all of them, last changed.</summary>
    public LastChanges LastChanges(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection =>
        {
            var animals = new Dictionary<string, Instant>(StringComparer.Ordinal);
            var rows = connection.Prepared(
                """
                SELECT a.name, max(c.recorded) FROM change c JOIN animal a ON a.herd = c.herd AND a.animal = c.animal
                WHERE c.herd = ?1 AND c.kind IN (2, 3) GROUP BY c.animal
                """).Bind(1, herd.Id);
            while (rows.Step())
            {
                animals.Add(rows.Text(0), Ticks.From(rows.Long(1)));
            }

            var rules = connection.Prepared("SELECT max(recorded) FROM change WHERE herd = ?1 AND kind IN (1, 4, 5, 8, 10)").Bind(1, herd.Id);
            rules.Step();
            return new LastChanges(animals, Ticks.From(rules.LongOrNull(0)));
        });
    }

    private static StoredEvent? Read(Connection connection, long herd, Statement row, TextPool texts, EventQuery query)
    {
        var stored = FactList.Read(row, texts);
        if (query.Animals is { } animals && !animals.Contains(stored.Animal))
        {
            return null;
        }

        var (gone, revision) = (row.Long(15) == (long)ChangeKind.Withdrawal, row.Long(18));
        var shown = query.Shows(stored.Fact);
        // What never was one of these events is not missed; what was one before it was replaced is told to be gone.
        if (!shown && (query.From is null || revision == 0))
        {
            return null;
        }

        return gone && FactRevisions.AnyLater(connection, herd, stored.Fact.Source, stored.Fact.SourceId, revision, query.Kinds)
            ? null
            : new StoredEvent(EventId(stored.Fact), stored.Animal, stored.Fact, Ticks.From(row.Long(17)), gone || !shown);
    }

    private static StoredEvent? Latest(Connection connection, long herd, string source, string sourceId) =>
        FactRevisions.Latest(connection, herd, source, sourceId) is { } id && FactList.Find(connection, herd, id) is { } stored
            ? new StoredEvent(EventId(stored.Fact), stored.Animal, stored.Fact, stored.Withdrawn ?? stored.Fact.Recorded, stored.Withdrawn is not null)
            : null;

    // The id its first fact has: of 2^64 ids two meet too seldom to carry the salt along.
    private static FactId EventId(Fact fact) => FactIdentity.Of(fact.Source, fact.SourceId, revision: 0, salt: 0);
}
