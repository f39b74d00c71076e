namespace ReproLink.Calendar.Status;

/// <summary>An animal's status on a day: the fold of her facts.</summary>
public enum AnimalStatus
{
    /// <summary>No service or exposure since the last calving; heifer: ever.</summary>
    NotServed = 1,

    /// <summary>Served or exposed; nothing decided yet.</summary>
    AwaitingTest = 2,

    /// <summary>Pregnant.</summary>
    Pregnant = 3,

    /// <summary>Pregnant by a sample before 90 days in milk (rule T2).</summary>
    PregnantCaution = 4,

    /// <summary>Open: every service and exposure failed.</summary>
    Open = 5,

    /// <summary>Inconclusive: presumed pregnant for every drug.</summary>
    Recheck = 6,

    /// <summary>Facts contradict each other (rule T7).</summary>
    Conflict = 7,

    /// <summary>Not to be bred.</summary>
    DoNotBreed = 8,

    /// <summary>Left the herd.</summary>
    Left = 9,
}
