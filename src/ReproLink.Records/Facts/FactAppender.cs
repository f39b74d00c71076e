using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>Appends and withdraws facts inside a request of the writer, and settles what a repeated identity means.</summary>
internal static class FactAppender
{
    private const string ReplacedReason = "replaced";

    private const string ById =
        """
        SELECT animal, day, kind, time, source, source_id, revision, code, number, value, words,
          EXISTS (SELECT 1 FROM withdrawal w WHERE w.herd = fact.herd AND w.animal = fact.animal AND w.fact = fact.fact)
        FROM fact WHERE herd = ?1 AND fact = ?2
        """;

    private const string InsertFact =
        """
        INSERT INTO fact (herd, animal, day, kind, time, fact, sequence, recorded, source, source_id, revision, code, number, value, words)
        VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)
        """;

    public static AppendAnswer Append(WriteUnit unit, long herd, FactDraft draft, Instant recorded)
    {
        var fact = draft.Fact;
        Refuse(draft.Animal, nameof(draft.Animal));
        Refuse(fact.Source, nameof(fact.Source));
        Refuse(fact.SourceId, nameof(fact.SourceId));
        var content = FactEncoder.Encode(fact);
        var animal = unit.Names.Animal(herd, draft.Animal);
        var (latest, free) = Revisions(unit, herd, fact.Source, fact.SourceId);
        if (latest is { Withdrawn: false } standing)
        {
            if (standing.Animal == animal && standing.Content == content)
            {
                return new AppendAnswer(AppendStatus.Duplicate, standing.Id);
            }

            Withdraw(unit, herd, standing, recorded, ReplacedReason, fact.Source);
            Add(unit, herd, animal, fact, content, free, recorded);
            return new AppendAnswer(AppendStatus.Replaced, free.Id);
        }

        Add(unit, herd, animal, fact, content, free, recorded);
        return new AppendAnswer(AppendStatus.Accepted, free.Id);
    }

    public static WithdrawStatus Withdraw(WriteUnit unit, long herd, FactId id, Instant recorded, string reason, string by)
    {
        if (Find(unit, herd, id) is not { } fact)
        {
            return WithdrawStatus.NotFound;
        }

        if (fact.Withdrawn)
        {
            return WithdrawStatus.AlreadyWithdrawn;
        }

        Withdraw(unit, herd, fact, recorded, reason, by);
        return WithdrawStatus.Withdrawn;
    }

    /// <summary>Withdraws the fact that stands for a source and sourceId, if any.</summary>
    public static void WithdrawStanding(WriteUnit unit, long herd, string source, string sourceId, Instant recorded, string reason)
    {
        if (Revisions(unit, herd, source, sourceId).Latest is { Withdrawn: false } standing)
        {
            Withdraw(unit, herd, standing, recorded, reason, source);
        }
    }

    /// <summary>The fact of that source and sourceId that counts now; null = none.</summary>
    public static FactId? Standing(WriteUnit unit, long herd, string source, string sourceId) =>
        Revisions(unit, herd, source, sourceId).Latest is { Withdrawn: false } standing ? standing.Id : null;

    private static void Withdraw(WriteUnit unit, long herd, Known fact, Instant recorded, string reason, string by)
    {
        var sequence = unit.Change(herd, recorded, ChangeKind.Withdrawal, fact.Animal, fact.Id.Value);
        InsertWithdrawal(unit, herd, fact.Animal, fact.Id, sequence, recorded, reason, by);
    }

    /// <summary>Writes the row of a withdrawal.</summary>
    public static void InsertWithdrawal(WriteUnit unit, long herd, long animal, FactId id, long sequence, Instant recorded, string reason, string by) =>
        unit.Connection.Prepared(
                "INSERT INTO withdrawal (herd, animal, fact, sequence, recorded, reason, withdrawn_by) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)")
            .Bind(1, herd).Bind(2, animal).Bind(3, id.Value).Bind(4, sequence).Bind(5, Ticks.Of(recorded))
            .Bind(6, reason).Bind(7, by).Run();

    private static void Add(WriteUnit unit, long herd, long animal, Fact fact, in EncodedFact content, Free free, Instant recorded)
    {
        var sequence = unit.Change(herd, recorded, ChangeKind.Fact, animal, free.Id.Value);
        Insert(unit, herd, animal, fact, content, (free.Id, free.Revision), recorded, sequence);
    }

    /// <summary>Writes the row of a fact.</summary>
    public static void Insert(
        WriteUnit unit, long herd, long animal, Fact fact, in EncodedFact content, (FactId Id, long Revision) of, Instant recorded, long sequence) =>
        unit.Connection.Prepared(InsertFact)
            .Bind(1, herd).Bind(2, animal).Bind(3, content.Day).Bind(4, content.Kind).Bind(5, content.Time).Bind(6, of.Id.Value)
            .Bind(7, sequence).Bind(8, Ticks.Of(recorded)).Bind(9, unit.Names.Source(herd, fact.Source)).Bind(10, fact.SourceId)
            .Bind(11, of.Revision).Bind(12, content.Code).Bind(13, content.Number).Bind(14, content.Value).Bind(15, content.Words)
            .Run();

    /// <summary>The latest fact of an identity, and the id the next one would have. Ids say which identity they belong to,
    /// so no index over sources is needed.</summary>
    private static (Known? Latest, Free Free) Revisions(WriteUnit unit, long herd, string source, string sourceId)
    {
        var number = unit.Names.Source(herd, source);
        var (latest, next) = At(0);
        if (latest is null)
        {
            return (null, next);
        }

        // Revisions have no gaps: double until one is missing, then halve. A fact replaced every hour stays cheap.
        var (present, missing) = (0L, 1L);
        (var known, next) = At(missing);
        while (known is not null)
        {
            (latest, present, missing) = (known, missing, missing * 2);
            (known, next) = At(missing);
        }

        while (missing - present > 1)
        {
            var middle = present + ((missing - present) / 2);
            (known, var free) = At(middle);
            (latest, present, next, missing) = known is null ? (latest, present, free, middle) : (known, middle, next, missing);
        }

        return (latest, next);

        (Known? Known, Free Free) At(long revision) => Locate(unit, herd, number, source, sourceId, revision);
    }

    private static (Known? Known, Free Free) Locate(
        WriteUnit unit, long herd, long sourceNumber, string source, string sourceId, long revision)
    {
        for (byte salt = 0; ; salt++)
        {
            var id = FactIdentity.Of(source, sourceId, revision, salt);
            var known = Find(unit, herd, id);
            if (known is null)
            {
                return (null, new Free(id, revision));
            }

            if (known.Source == sourceNumber && known.Revision == revision && known.SourceId == sourceId)
            {
                return (known, default);
            }
        }
    }

    private static Known? Find(WriteUnit unit, long herd, FactId id)
    {
        var row = unit.Connection.Prepared(ById).Bind(1, herd).Bind(2, id.Value);
        if (!row.Step())
        {
            return null;
        }

        var content = new EncodedFact(
            row.Int(1), row.Int(2), row.Int(3), row.Long(7), row.LongOrNull(8), row.RealOrNull(9), row.TextOrNull(10));
        var known = new Known(id, row.Long(0), content, row.Long(4), row.Text(5), row.Long(6), row.Long(11) != 0);
        row.Reset();
        return known;
    }

    private static void Refuse(string text, string name)
    {
        if (string.IsNullOrEmpty(text))
        {
            throw new ArgumentException($"A fact needs a {name}.");
        }
    }

    private sealed record Known(
        FactId Id, long Animal, EncodedFact Content, long Source, string SourceId, long Revision, bool Withdrawn);

    private readonly record struct Free(FactId Id, long Revision);
}
