using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>A person's decisions about held results, inside a request of the writer.</summary>
internal static class HeldDecider
{
    private static readonly HeldDecision NotFound = new(HeldStatus.NotFound, null);
    private static readonly HeldDecision AlreadySettled = new(HeldStatus.AlreadySettled, null);

    public static HeldDecision Settle(
        WriteUnit unit, long herd, string heldId, Instant now, string ending, string by, string note, FactDraft? draft)
    {
        if (HeldWriter.Parse(heldId) is not { } held || HeldRows.Find(unit.Connection, herd, held) is not { } row)
        {
            return NotFound;
        }

        if (HeldRows.FindEnd(unit.Connection, herd, held) is not null)
        {
            return AlreadySettled;
        }

        var recorded = unit.Record(now);
        var intake = new Intake(unit, herd, recorded);
        AppendAnswer? answer = null;
        HeldWriter.EndOpen(unit, herd, row.Source, row.SourceId, recorded, ending, by, draft is null ? null : Append, note);
        return new HeldDecision(HeldStatus.Settled, answer) { Recorded = recorded, HistoryOf = intake.History };

        FactId Append()
        {
            answer = intake.Append(draft);
            return answer.Id;
        }
    }

    public static HeldDecision Reopen(WriteUnit unit, long herd, string heldId, string reason, string by, Instant now)
    {
        if (HeldWriter.Parse(heldId) is not { } held || HeldRows.Find(unit.Connection, herd, held) is not { } row)
        {
            return NotFound;
        }

        // The sender may have said more since: then that counts, and there is nothing left to undo.
        if (HeldRows.Latest(unit.Connection, herd, row.Source, row.SourceId)?.Held != held
            || HeldRows.FindEnd(unit.Connection, herd, held) is not { Ending: HeldEnding.Assigned or HeldEnding.Dismissed } end
            || (FactAppender.Standing(unit, herd, row.Source, row.SourceId) is { } standing && standing.Value != end.Fact))
        {
            return AlreadySettled;
        }

        var recorded = unit.Record(now);
        if (end.Fact is { } fact)
        {
            FactAppender.Withdraw(unit, herd, new FactId(fact), recorded, reason, by);
        }

        return new HeldDecision(HeldStatus.Settled, null)
        {
            Recorded = recorded,
            Reopened = HeldWriter.Text(HeldWriter.HoldAgain(unit, herd, row, recorded)),
        };
    }
}
