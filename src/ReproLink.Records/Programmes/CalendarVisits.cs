using NodaTime;

namespace ReproLink.Records;

/// <summary>
/// What the bearer of each key has seen of a herd's calendar. A visit ends after some hours without a look; the next one
/// compares with the last look of the visit before, and goes on comparing with it however often the page is loaded again.
/// </summary>
public sealed class CalendarVisits
{
    /// <summary>Hours without a look that end a visit.</summary>
    public static readonly Duration Apart = Duration.FromHours(6);

    /// <summary>A look sooner after the last than this is not written down: what it may have shown more is shown once more later.</summary>
    private static readonly Duration Enough = Duration.FromMinutes(1);

    private readonly Writer _writer;
    private readonly Readers _readers;

    internal CalendarVisits(Writer writer, Readers readers) => (_writer, _readers) = (writer, readers);

    /// <summary>Notes a look.</summary>
    /// <param name="herd">The herd.</param>
    /// <param name="key">The name of the key.</param>
    /// <param name="knownAt">What the page shown was known at.</param>
    /// <param name="now">Now.</param>
    /// <returns>The moment to compare with; null = a first visit.</returns>
    public async Task<Instant?> Look(Herd herd, string key, Instant knownAt, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var visit = Find(herd, key);
        if (visit is null)
        {
            await Keep(herd, key, new Visit(Ticks.Of(knownAt), Ticks.Of(knownAt))).ConfigureAwait(false);
            return null;
        }

        var looked = Ticks.From(visit.Looked);
        if (now - looked < Enough)
        {
            return Ticks.From(visit.Since);
        }

        var since = now - looked >= Apart ? looked : Ticks.From(visit.Since);
        await Keep(herd, key, new Visit(Ticks.Of(since), Ticks.Of(knownAt))).ConfigureAwait(false);
        return since;
    }

    /// <summary>What the page showed was seen: from now on changes count from there.</summary>
    public Task Seen(Herd herd, string key, Instant knownAt)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return Keep(herd, key, new Visit(Ticks.Of(knownAt), Ticks.Of(knownAt)));
    }

    private Visit? Find(Herd herd, string key) => _readers.Read(connection =>
    {
        var row = connection.Prepared("SELECT since, looked FROM calendar_visit WHERE herd = ?1 AND key_name = ?2").Bind(1, herd.Id).Bind(2, key);
        if (!row.Step())
        {
            return null;
        }

        var visit = new Visit(row.Long(0), row.Long(1));
        row.Reset();
        return visit;
    });

    // Two pages loaded at once: neither takes the mark of the other back.
    private Task<bool> Keep(Herd herd, string key, Visit visit) => _writer.Write(unit =>
    {
        unit.Connection.Prepared(
            """
            INSERT INTO calendar_visit (herd, key_name, since, looked) VALUES (?1, ?2, ?3, ?4)
            ON CONFLICT (herd, key_name) DO UPDATE SET since = MAX(since, excluded.since), looked = MAX(looked, excluded.looked)
            """)
            .Bind(1, herd.Id).Bind(2, key).Bind(3, visit.Since).Bind(4, visit.Looked).Run();
        return true;
    });

    private sealed record Visit(long Since, long Looked);
}
