using NodaTime;

namespace ReproLink.Api.Archives;

/// <summary>A herd that was put back.</summary>
public sealed record ImportAnswer
{
    /// <summary>How much of what.</summary>
    public required ImportCounts Restored { get; init; }

    /// <summary>Approvals and confirmations by a veterinarian that were in the zip.</summary>
    public required ImportedApprovals Approvals { get; init; }
}

/// <summary>How much of what was put back.</summary>
public sealed record ImportCounts
{
    /// <summary>Facts, results among them, withdrawn ones too.</summary>
    /// <example>1204</example>
    public required int Facts { get; init; }

    /// <summary>Of them withdrawn.</summary>
    /// <example>3</example>
    public required int Withdrawn { get; init; }

    /// <summary>Held results, settled ones too.</summary>
    /// <example>2</example>
    public required int Held { get; init; }

    /// <summary>Programme versions.</summary>
    /// <example>2</example>
    public required int Programmes { get; init; }

    /// <summary>Forms of the herd's own protocols.</summary>
    /// <example>0</example>
    public required int Protocols { get; init; }

    /// <summary>Sampling rounds.</summary>
    /// <example>12</example>
    public required int Rounds { get; init; }

    /// <summary>Their tubes.</summary>
    /// <example>240</example>
    public required int Tubes { get; init; }

    /// <summary>Lines as received.</summary>
    /// <example>236</example>
    public required int ReceivedLines { get; init; }

    /// <summary>Versions of mappings.</summary>
    /// <example>1</example>
    public required int Mappings { get; init; }
}

/// <summary>What became of the approvals in a zip.</summary>
public sealed record ImportedApprovals
{
    /// <summary>Whether they were put back. When not, prostaglandin and protocol inseminations wait for a veterinarian.</summary>
    /// <example>false</example>
    public required bool Restored { get; init; }

    /// <summary>The approvals.</summary>
    public required IReadOnlyList<ImportedApproval> Versions { get; init; }

    /// <summary>Recalled protocols a veterinarian answered for.</summary>
    public required IReadOnlyList<string> Protocols { get; init; }
}

/// <summary>An approval in a zip.</summary>
public sealed record ImportedApproval
{
    /// <summary>The version.</summary>
    /// <example>2</example>
    public required int Version { get; init; }

    /// <summary>Who approved it.</summary>
    /// <example>Dr Hale</example>
    public required string ApprovedBy { get; init; }

    /// <summary>When.</summary>
    public required Instant ApprovedAt { get; init; }

    /// <summary>The last day it holds.</summary>
    public LocalDate? Expires { get; init; }
}
