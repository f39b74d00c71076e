using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Records;

/// <summary>A row of <c>programme</c>.</summary>
internal sealed class ProgrammeRow
{
    public const string Select =
        """
        SELECT version, recorded, draft, programme, received, saved_by FROM programme
        WHERE herd = @herd AND recorded <= @knownAt ORDER BY version
        """;

    public long Version { get; init; }

    public long Recorded { get; init; }

    public long Draft { get; init; }

    public string Programme { get; init; } = "";

    public string Received { get; init; } = "";

    public string SavedBy { get; init; } = "";

    public SavedProgramme ToSaved(IReadOnlyList<Approval> approvals, IReadOnlyList<Refusal> refusals) =>
        new(new ProgrammeVersion((int)Version, ProgrammeJson.Read(Programme), Ticks.From(Recorded), approvals) { Refusals = refusals }, Draft != 0, SavedBy)
        {
            Json = Received,
        };
}

/// <summary>A row of <c>approval</c>.</summary>
internal sealed class ApprovalRow
{
    public const string Select =
        """
        SELECT version, sequence, recorded, approved_by, expires FROM approval
        WHERE herd = @herd AND recorded <= @knownAt ORDER BY version, sequence
        """;

    public long Version { get; init; }

    public long Sequence { get; init; }

    public long Recorded { get; init; }

    public string ApprovedBy { get; init; } = "";

    public long? Expires { get; init; }

    public Approval ToApproval() => new(ApprovedBy, Ticks.From(Recorded), Expires is { } day ? new Day((int)day) : null) { Order = Sequence };
}

/// <summary>A row of <c>refusal</c>.</summary>
internal sealed class RefusalRow
{
    public const string Select =
        """
        SELECT version, sequence, recorded, refused_by, note FROM refusal
        WHERE herd = @herd AND recorded <= @knownAt ORDER BY version, sequence
        """;

    public long Version { get; init; }

    public long Sequence { get; init; }

    public long Recorded { get; init; }

    public string RefusedBy { get; init; } = "";

    public string Note { get; init; } = "";

    public Refusal ToRefusal() => new(RefusedBy, Ticks.From(Recorded), Note) { Order = Sequence };
}
