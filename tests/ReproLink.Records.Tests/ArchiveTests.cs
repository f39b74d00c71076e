using System.Text;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records.Tests;

/// <summary>What a herd owns is taken out whole, and the one door through which recorded instants come in is narrow.</summary>
public sealed class ArchiveTests
{
    /// <summary>What stays behind, and why.</summary>
    private static readonly Dictionary<string, string> NotTaken = new()
    {
        ["herd"] = "its name and time zone are",
        ["change"] = "it follows from the rest",
        ["animal"] = "names stand in the facts",
        ["source"] = "names stand in the facts",
        ["held_open"] = "it follows from held and held_end",
        ["idempotency"] = "answers of one service, kept for a week",
        ["feed_link"] = "secrets",
        ["calendar_visit"] = "what the bearer of a key has seen",
        ["webhook"] = "secrets, and addresses that this service was asked to tell",
        ["webhook_delivery"] = "what this service sent",
        ["webhook_attempt"] = "what this service sent",
    };

    private static readonly HashSet<string> Taken =
    [
        "fact", "withdrawal", "programme", "approval", "refusal", "held", "held_end", "protocol", "protocol_confirmation", "round", "tube", "tube_event", "dispatch",
        "result_mapping", "fact_mapping", "received_batch", "received_line",
    ];

    [Fact]
    public async Task Every_table_of_a_herd_is_taken_out_or_left_for_a_reason()
    {
        await using var temp = await TempStore.WithHerd();
        using var raw = temp.Raw();
        using var command = raw.CreateCommand();
        command.CommandText = "SELECT m.name FROM sqlite_master m JOIN pragma_table_info(m.name) c ON c.name = 'herd' WHERE m.type = 'table' ORDER BY m.name";
        using var reader = command.ExecuteReader();
        var tables = new List<string>();
        while (reader.Read())
        {
            tables.Add(reader.GetString(0));
        }

        Assert.Equal(Taken.Concat(NotTaken.Keys).Order(StringComparer.Ordinal), tables.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Any_fact_comes_back_as_it_was_with_its_moment_and_its_id()
    {
        await using var temp = await TempStore.WithHerd();
        var random = new Random(5);
        var drafts = Anything.FactTypes.SelectMany(type => Enumerable.Range(0, 20).Select(i => new FactDraft($"cow {i}", Anything.Fact(type, random, "book", $"{type.Name}-{i}")))).ToList();
        await temp.Store.Facts.Append(temp.Herd, drafts, TempStore.Noon);
        await temp.Store.Facts.Append(temp.Herd, [.. drafts.Take(30).Select(d => d with { Animal = "moved" })], TempStore.Noon + Duration.FromHours(1));
        var archive = temp.Store.Archives.Read(temp.Herd, Taken1);
        var other = await temp.Store.Herds.Put(new LocationKey("herd", "other"), "Other", "Europe/London", TempStore.Noon);

        var answer = await temp.Store.Archives.Restore(other, archive, TempStore.Noon + Duration.FromHours(2));

        Assert.Equal((RestoreStatus.Restored, null), (answer.Status, answer.Why));
        var again = temp.Store.Archives.Read(answer.Herd!, Taken1);
        Assert.Null(Anything.Difference(archive.Rows, again.Rows));
        Assert.Equal("America/Chicago", temp.Store.Herds.Find(other.Location)!.TimeZone);

        static HerdArchive Taken1(HerdRecords records) => new()
        {
            Name = records.Herd.Name,
            TimeZone = records.Herd.TimeZone,
            Rows = [.. records.Facts().SelectMany(f => f.Withdrawn is { } w ? (KeptRecord[])[f, w] : [f]).OrderBy(r => r.Order)],
        };
    }

    [Fact]
    public async Task Nothing_comes_in_that_is_later_than_now_or_runs_backwards_or_where_something_is()
    {
        await using var temp = await TempStore.WithHerd();
        var (noon, minute) = (TempStore.Noon, Duration.FromMinutes(1));
        var one = Kept(1, "c-1", noon);
        await Refused(temp, "later than now", Kept(1, "c-1", noon + minute));
        await Refused(temp, "before what stands", one, Kept(2, "c-2", noon - minute));
        await Refused(temp, "stand at once", one, Kept(2, "c-1", noon));
        await Refused(temp, "claim the place", one, Kept(1, "c-2", noon));
        await Refused(temp, "its own would be", one with { Fact = one.Fact with { Id = new FactId(7) } });
        await Refused(temp, "no fact", new KeptWithdrawal(1, one.Fact.Id, "", "me", noon));
        await Refused(temp, "one place", new KeptApproval(1, 4, "Dr Hale", null, noon));
        await temp.Store.Facts.Append(temp.Herd, [new FactDraft("1", new Calving(new Day(20000)) { Source = "a", SourceId = "b" })], noon);
        var answer = await temp.Store.Archives.Restore(temp.Herd, Of(one), noon);
        Assert.Equal(RestoreStatus.NotEmpty, answer.Status);
    }

    private static async Task Refused(TempStore temp, string why, params KeptRecord[] rows)
    {
        var answer = await temp.Store.Archives.Restore(temp.Herd, Of(rows), TempStore.Noon);
        Assert.Equal(RestoreStatus.Refused, answer.Status);
        Assert.Contains(why, answer.Why, StringComparison.Ordinal);
        Assert.Empty(temp.Store.Facts.List(temp.Herd, null, null, 10).Items);
    }

    private static HerdArchive Of(params KeptRecord[] rows) => new() { Name = "Back", TimeZone = "Europe/London", Rows = rows };

    private static KeptFact Kept(long order, string sourceId, Instant at)
    {
        var id = IdOf("book", sourceId);
        return new KeptFact(order, "1", new Calving(new Day(20000)) { Id = id, Source = "book", SourceId = sourceId, Recorded = at });
    }

    // As decision 0003 says ids are made.
    private static FactId IdOf(string source, string sourceId)
    {
        var hash = System.Security.Cryptography.SHA256.HashData(Encoding.UTF8.GetBytes($"{source}\0{sourceId}\0" + "0"));
        return new FactId(System.Buffers.Binary.BinaryPrimitives.ReadInt64BigEndian(hash));
    }
}
