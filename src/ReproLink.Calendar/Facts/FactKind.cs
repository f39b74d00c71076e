namespace ReproLink.Calendar.Facts;

/// <summary>
/// The kinds of fact, in the order in which facts of one day are folded (rule F3): a card first, then arrival, calving,
/// loss, oestrus, service, exposure, sample and result, examination, treatment, do-not-breed, dry-off, departure.
/// </summary>
/// <remarks>The numbers are stored: never renumber one.</remarks>
public enum FactKind
{
    /// <summary>The animal's card: birth, breed, parity, pen, identifiers.</summary>
    Animal = 1,

    /// <summary>She came into the herd.</summary>
    Arrival = 2,

    /// <summary>She calved.</summary>
    Calving = 3,

    /// <summary>A pregnancy was lost.</summary>
    Loss = 4,

    /// <summary>She was seen in oestrus.</summary>
    Oestrus = 5,

    /// <summary>Artificial insemination.</summary>
    Insemination = 6,

    /// <summary>Natural service that was seen.</summary>
    NaturalService = 7,

    /// <summary>Transfer of an embryo.</summary>
    EmbryoTransfer = 8,

    /// <summary>She ran with a bull from a day to a day.</summary>
    Exposure = 9,

    /// <summary>A blood or milk sample was taken.</summary>
    Sample = 10,

    /// <summary>The result of a blood or milk test.</summary>
    Result = 11,

    /// <summary>Ultrasound or palpation.</summary>
    Examination = 12,

    /// <summary>An agent was given, or reported as not given.</summary>
    Treatment = 13,

    /// <summary>She is not to be bred.</summary>
    DoNotBreed = 14,

    /// <summary>She may be bred again.</summary>
    BreedAgain = 15,

    /// <summary>She was dried off.</summary>
    DryOff = 16,

    /// <summary>She left the herd.</summary>
    Departure = 17,

    /// <summary>A person declares a conflicting fact right (rule F6).</summary>
    Confirm = 18,
}
