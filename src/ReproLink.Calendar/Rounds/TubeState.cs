namespace ReproLink.Calendar.Rounds;

/// <summary>What is known of a tube. The numbers are stored: never renumber one.</summary>
public enum TubeState
{
    /// <summary>Its label is printed; nothing happened yet.</summary>
    Planned = 1,

    /// <summary>Blood is in it, to the wanted line.</summary>
    Drawn = 2,

    /// <summary>Blood is in it, less than wanted.</summary>
    Short = 3,

    /// <summary>No blood was drawn.</summary>
    NotDrawn = 4,

    /// <summary>It broke or was lost: whatever was in it is gone.</summary>
    Broken = 5,
}

/// <summary>Why no blood was drawn. The numbers are stored: never renumber one.</summary>
public enum NotDrawnReason
{
    /// <summary>She was not found.</summary>
    NotFound = 1,

    /// <summary>She would not stand for it.</summary>
    Refused = 2,

    /// <summary>The vein gave no blood.</summary>
    NoFlow = 3,

    /// <summary>She came when the tubes were somewhere else in their order.</summary>
    OutOfOrder = 4,

    /// <summary>She is ill or in treatment.</summary>
    Ill = 5,

    /// <summary>She has left.</summary>
    Gone = 6,

    /// <summary>Anything else.</summary>
    Other = 7,
}
