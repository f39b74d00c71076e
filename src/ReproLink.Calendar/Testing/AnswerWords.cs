namespace ReproLink.Calendar.Testing;

/// <summary>Whether an animal may be bled on a day (5.4).</summary>
public enum Answer
{
    /// <summary>She may be bled.</summary>
    Eligible = 1,

    /// <summary>Too soon.</summary>
    NotYet = 2,

    /// <summary>Nothing to ask her blood.</summary>
    NotNeeded = 3,

    /// <summary>There is a need, but something stands in the way.</summary>
    Blocked = 4,
}

/// <summary>What a sample is for (rule W1).</summary>
public enum Need
{
    /// <summary>First test of a service or exposure.</summary>
    FirstTest = 1,

    /// <summary>After an inconclusive, spoiled or overdue sample.</summary>
    Resample = 2,

    /// <summary>A conflict that a sample can end.</summary>
    ResolveConflict = 3,

    /// <summary>Retest of a pregnant found before day 90 in milk.</summary>
    CautionRetest = 4,

    /// <summary>Confirmation of a pregnancy.</summary>
    Confirmation = 5,
}

/// <summary>The reason of an answer: a closed list (5.4, B5).</summary>
public enum AnswerReason
{
    /// <summary>Eligible: the need says why.</summary>
    Need = 1,

    /// <summary>Too soon after the service.</summary>
    T1 = 2,

    /// <summary>Too soon after calving.</summary>
    T2 = 3,

    /// <summary>Too soon after a loss.</summary>
    T3 = 4,

    /// <summary>Too soon after the bull left.</summary>
    T4 = 5,

    /// <summary>Too soon after the sample before.</summary>
    Resample = 6,

    /// <summary>The programme has no day on which to draw.</summary>
    NoSamplingDay = 7,

    /// <summary>No service or exposure since the calving.</summary>
    NotServed = 8,

    /// <summary>Known open.</summary>
    Open = 9,

    /// <summary>Pregnant and no confirmation due.</summary>
    ConfirmedPregnant = 10,

    /// <summary>A sample is on its way to an answer.</summary>
    AwaitingResult = 11,

    /// <summary>Not to be bred.</summary>
    DoNotBreed = 12,

    /// <summary>A held result names her or may mean her.</summary>
    HeldResult = 13,

    /// <summary>Only an examination decides.</summary>
    ExaminationDue = 14,

    /// <summary>The bull is still in.</summary>
    ExposureRunning = 15,

    /// <summary>B5: planned on a day after the period asked about.</summary>
    PlannedLater = 16,

    /// <summary>B5: planned on a day before the period asked about.</summary>
    PlannedEarlier = 17,
}

/// <summary>The words of answers as written in the API, the CSV and the documents.</summary>
public static class AnswerWords
{
    /// <summary>The word of an answer.</summary>
    public static string Of(Answer answer) => answer switch
    {
        Answer.Eligible => "eligible",
        Answer.NotYet => "not-yet",
        Answer.NotNeeded => "not-needed",
        Answer.Blocked => "blocked",
        _ => throw new ArgumentOutOfRangeException(nameof(answer), answer, "no such answer"),
    };

    /// <summary>The word of a need.</summary>
    public static string Of(Need need) => need switch
    {
        Need.FirstTest => "first-test",
        Need.Resample => "resample",
        Need.ResolveConflict => "resolve-conflict",
        Need.CautionRetest => "caution-retest",
        Need.Confirmation => "confirmation",
        _ => throw new ArgumentOutOfRangeException(nameof(need), need, "no such need"),
    };

    /// <summary>The word of a reason; of an eligible answer, the need.</summary>
    public static string Of(AnswerReason reason, Need? need = null) => reason switch
    {
        AnswerReason.Need => need is { } asked ? Of(asked) : throw new ArgumentNullException(nameof(need)),
        AnswerReason.T1 => "T1",
        AnswerReason.T2 => "T2",
        AnswerReason.T3 => "T3",
        AnswerReason.T4 => "T4",
        AnswerReason.Resample => "resample",
        AnswerReason.NoSamplingDay => "no-sampling-day",
        AnswerReason.NotServed => "not-served",
        AnswerReason.Open => "open",
        AnswerReason.ConfirmedPregnant => "confirmed-pregnant",
        AnswerReason.AwaitingResult => "awaiting-result",
        AnswerReason.DoNotBreed => "do-not-breed",
        AnswerReason.HeldResult => "held-result",
        AnswerReason.ExaminationDue => "examination-due",
        AnswerReason.ExposureRunning => "exposure-running",
        AnswerReason.PlannedLater => "planned-later",
        AnswerReason.PlannedEarlier => "planned-earlier",
        _ => throw new ArgumentOutOfRangeException(nameof(reason), reason, "no such reason"),
    };
}
