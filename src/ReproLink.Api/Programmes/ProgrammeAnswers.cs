using NodaTime;
using ReproLink.Api.OpenApi;
using ReproLink.Api.ProgrammeChecks;

namespace ReproLink.Api.Programmes;

/// <summary>Which version an answer rests on; there while the herd has saved none and the defaults govern.</summary>
public sealed record ProgrammeNote
{
    /// <summary>0: no version was saved.</summary>
    /// <example>0</example>
    public required int Version { get; init; }

    /// <summary>The defaults govern.</summary>
    /// <example>true</example>
    public required bool Defaults { get; init; }

    internal static ProgrammeNote? Of(bool hasSavedProgramme) => hasSavedProgramme ? null : new ProgrammeNote { Version = 0, Defaults = true };
}

/// <summary>A version of the programme with all its settings.</summary>
public sealed record ProgrammeAnswer : ProgrammeInput
{
    /// <summary>Its number; 0 = the defaults.</summary>
    /// <example>3</example>
    public required int Version { get; init; }

    /// <summary>A draft governs nothing; `defaults` while none was saved.</summary>
    /// <example>saved</example>
    [Words("saved", "draft", "defaults")]
    public required string State { get; init; }

    /// <summary>There while the herd has saved no programme and the defaults govern.</summary>
    public ProgrammeNote? Programme { get; init; }

    /// <summary>Name of the key that saved it.</summary>
    /// <example>manager</example>
    public string? SavedBy { get; init; }

    /// <summary>When it was saved.</summary>
    public Instant? SavedAt { get; init; }

    /// <summary>Whether a veterinarian's approval holds on the day asked about.</summary>
    public required bool Approved { get; init; }

    /// <summary>The approvals given.</summary>
    public required IReadOnlyList<ApprovalAnswer> Approvals { get; init; }

    /// <summary>The refusals: no approval given before one holds. Absent = none.</summary>
    public IReadOnlyList<RefusalAnswer>? Refusals { get; init; }
}

/// <summary>Every version saved.</summary>
public sealed record ProgrammeVersions
{
    /// <summary>In the order saved; empty = the defaults govern.</summary>
    public required IReadOnlyList<ProgrammeAnswer> Versions { get; init; }

    /// <summary>There while the herd has saved no programme and the defaults govern.</summary>
    public ProgrammeNote? Programme { get; init; }
}

/// <summary>What became of a programme that was sent.</summary>
public sealed record ProgrammeSaved
{
    /// <summary>The version it became.</summary>
    /// <example>3</example>
    public required int Version { get; init; }

    /// <summary>A draft governs nothing.</summary>
    /// <example>saved</example>
    [Words("saved", "draft")]
    public required string State { get; init; }

    /// <summary>What the programme check found.</summary>
    public required IReadOnlyList<CheckFindingAnswer> Findings { get; init; }
}

/// <summary>A veterinarian's approval.</summary>
public sealed record ApprovalInput
{
    /// <summary>The version approved.</summary>
    /// <example>3</example>
    public required int Version { get; init; }

    /// <summary>Last day it holds, included; absent = no end.</summary>
    public LocalDate? Expires { get; init; }
}

/// <summary>An approval on record.</summary>
public sealed record ApprovalAnswer
{
    /// <summary>The version.</summary>
    /// <example>3</example>
    public required int Version { get; init; }

    /// <summary>Name of the veterinarian's key.</summary>
    /// <example>veterinarian</example>
    public required string ApprovedBy { get; init; }

    /// <summary>When.</summary>
    public required Instant ApprovedAt { get; init; }

    /// <summary>Last day it holds.</summary>
    public LocalDate? Expires { get; init; }
}

/// <summary>A veterinarian's refusal.</summary>
public sealed record RefusalInput
{
    /// <summary>The version refused.</summary>
    /// <example>3</example>
    public required int Version { get; init; }

    /// <summary>Why, in your words: the manager reads it.</summary>
    /// <example>The second dose of prostaglandin falls on a Sunday.</example>
    public required string Note { get; init; }
}

/// <summary>A refusal on record.</summary>
public sealed record RefusalAnswer
{
    /// <summary>The version.</summary>
    /// <example>3</example>
    public required int Version { get; init; }

    /// <summary>Name of the veterinarian's key.</summary>
    /// <example>veterinarian</example>
    public required string RefusedBy { get; init; }

    /// <summary>When.</summary>
    public required Instant RefusedAt { get; init; }

    /// <summary>Why.</summary>
    /// <example>The second dose of prostaglandin falls on a Sunday.</example>
    public required string Note { get; init; }
}
