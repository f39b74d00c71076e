namespace ReproLink.Records;

/// <summary>What a change of a herd was. The numbers are stored: never renumber one.</summary>
public enum ChangeKind
{
    /// <summary>The herd was created, renamed or moved to another time zone.</summary>
    Herd = 1,

    /// <summary>A fact was appended.</summary>
    Fact = 2,

    /// <summary>A fact was withdrawn.</summary>
    Withdrawal = 3,

    /// <summary>A programme version was saved.</summary>
    Programme = 4,

    /// <summary>A programme version was approved.</summary>
    Approval = 5,

    /// <summary>A result was held.</summary>
    Held = 6,

    /// <summary>A held result was released, assigned, dismissed or replaced.</summary>
    HeldEnd = 7,

    /// <summary>A protocol was added to the herd's own, or confirmed.</summary>
    Protocol = 8,

    /// <summary>A sampling round was frozen, or something happened to its tubes.</summary>
    Round = 9,

    /// <summary>A programme version was refused.</summary>
    Refusal = 10,
}
