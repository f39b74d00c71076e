using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>
/// Puts an archive into an empty herd, in the order in which it was recorded, each thing with the instant at which it was. What
/// the store would never have written itself is refused.
/// </summary>
internal sealed partial class ArchiveWriter(WriteUnit unit, long herd, Instant now)
{
    private readonly Dictionary<(string Source, string SourceId), Identity> _identities = [];
    private readonly Dictionary<FactId, (long Animal, Identity Identity)> _facts = [];

    public void Write(HerdArchive archive)
    {
        Instant? before = null;
        KeptRecord? placed = null;
        var sequence = 0L;
        foreach (var row in archive.Rows.OrderBy(r => r.Order))
        {
            if (row.At > now || row.At < before)
            {
                throw new ArchiveContradictionException(row.At > now
                    ? $"what stands in place {row.Order} was recorded at {row.At}, which is later than now"
                    : $"what stands in place {row.Order} was recorded at {row.At}, before what stands in the place before it");
            }

            if (placed is null || placed.Order != row.Order)
            {
                sequence = unit.Change(herd, now, KindOf(row), AnimalOf(row), SubjectOf(row));
                (placed, before) = (row, row.At);
            }
            else if (RoundOf(row) is not { } round || RoundOf(placed) != round)
            {
                throw new ArchiveContradictionException($"two records claim the place {row.Order}");
            }

            Put(row, sequence);
        }

        SettleHeld();
        WriteReceived(archive);
        WriteMappings(archive);
    }

    private void Put(KeptRecord row, long sequence)
    {
        switch (row)
        {
            case KeptFact fact: Put(fact, sequence); break;
            case KeptWithdrawal withdrawal: Put(withdrawal, sequence); break;
            case KeptHeld held: Put(held, sequence); break;
            case KeptHeldEnd end: Put(end, sequence); break;
            case KeptProgramme programme: ProgrammeBook.Insert(unit.Connection, herd, sequence, programme); break;
            case KeptApproval approval: ProgrammeBook.Insert(unit.Connection, herd, sequence, approval); break;
            case KeptRefusal refusal: ProgrammeBook.Insert(unit.Connection, herd, sequence, refusal); break;
            case KeptProtocol protocol: ProtocolShelf.Insert(unit.Connection, herd, sequence, protocol); break;
            case KeptConfirmation confirmation: ProtocolShelf.Insert(unit.Connection, herd, sequence, confirmation); break;
            case KeptRound round: Put(round, sequence); break;
            case KeptTube tube: Put(tube, sequence); break;
            case KeptTubeEvent happened: Put(happened, sequence); break;
            case KeptDispatch dispatch: Put(dispatch, sequence); break;
            default: throw new ArgumentException($"A {row.GetType().Name} cannot be put back.");
        }
    }

    private static ChangeKind KindOf(KeptRecord row) => row switch
    {
        KeptFact => ChangeKind.Fact,
        KeptWithdrawal => ChangeKind.Withdrawal,
        KeptHeld => ChangeKind.Held,
        KeptHeldEnd => ChangeKind.HeldEnd,
        KeptProgramme => ChangeKind.Programme,
        KeptApproval => ChangeKind.Approval,
        KeptRefusal => ChangeKind.Refusal,
        KeptProtocol or KeptConfirmation => ChangeKind.Protocol,
        _ => ChangeKind.Round,
    };

    private long? AnimalOf(KeptRecord row) => row switch
    {
        KeptFact fact => unit.Names.Animal(herd, fact.Animal),
        KeptWithdrawal withdrawal => Known(withdrawal.Fact).Animal,
        _ => null,
    };

    private static long SubjectOf(KeptRecord row) => row switch
    {
        KeptFact fact => fact.Fact.Id.Value,
        KeptWithdrawal withdrawal => withdrawal.Fact.Value,
        KeptHeld held => HeldId(held.HeldId),
        KeptHeldEnd end => HeldId(end.HeldId),
        KeptProgramme programme => programme.Version,
        KeptApproval approval => approval.Version,
        KeptRefusal refusal => refusal.Version,
        _ => RoundOf(row) ?? 0,
    };

    private static int? RoundOf(KeptRecord row) => row switch
    {
        KeptRound round => round.Round,
        KeptTube tube => tube.Round,
        KeptTubeEvent happened => happened.Round,
        KeptDispatch dispatch => dispatch.Round,
        _ => null,
    };

    private void Put(KeptFact kept, long sequence)
    {
        var fact = kept.Fact;
        var identity = IdentityOf(fact.Source, fact.SourceId);
        if (identity.Standing)
        {
            throw new ArchiveContradictionException($"two facts of '{fact.Source}' '{fact.SourceId}' stand at once");
        }

        var id = FreeId(fact, identity.Revisions);
        if (id != fact.Id)
        {
            throw new ArchiveContradictionException($"the fact '{fact.Source}' '{fact.SourceId}' has the id {fact.Id}; its own would be {id}");
        }

        var animal = unit.Names.Animal(herd, kept.Animal);
        FactAppender.Insert(unit, herd, animal, fact, FactEncoder.Encode(fact), (id, identity.Revisions), fact.Recorded, sequence);
        _facts.Add(id, (animal, identity));
        identity.Revisions++;
        identity.Standing = true;
    }

    private void Put(KeptWithdrawal withdrawal, long sequence)
    {
        var (animal, identity) = Known(withdrawal.Fact);
        FactAppender.InsertWithdrawal(unit, herd, animal, withdrawal.Fact, sequence, withdrawal.At, withdrawal.Reason, withdrawal.By);
        // Only the latest of an identity ever stood.
        identity.Standing = false;
    }

    private FactId FreeId(Fact fact, long revision)
    {
        for (byte salt = 0; ; salt++)
        {
            var id = FactIdentity.Of(fact.Source, fact.SourceId, revision, salt);
            if (!_facts.ContainsKey(id))
            {
                return id;
            }
        }
    }

    private Identity IdentityOf(string source, string sourceId) =>
        _identities.TryGetValue((source, sourceId), out var known) ? known : _identities[(source, sourceId)] = new Identity();

    private (long Animal, Identity Identity) Known(FactId fact) => _facts.TryGetValue(fact, out var known)
        ? known
        : throw new ArchiveContradictionException($"there is no fact {fact} before it is spoken of");

    private sealed class Identity
    {
        public long Revisions { get; set; }

        public bool Standing { get; set; }
    }
}
