namespace ReproLink.Calendar.Figures;

/// <summary>Why something was not counted.</summary>
public enum LeftOutReason
{
    /// <summary>Served, and no answer on record yet.</summary>
    NoAnswerYet = 1,

    /// <summary>Inconclusive, or facts contradict each other.</summary>
    InDoubt = 2,

    /// <summary>Left before an answer, or before the day asked about.</summary>
    Left = 3,

    /// <summary>Not to be bred.</summary>
    NotToBeBred = 4,

    /// <summary>Ran with a bull: there is no service day.</summary>
    WithBull = 5,

    /// <summary>Has not come to the day asked about yet.</summary>
    NotReached = 6,

    /// <summary>Never served.</summary>
    NeverServed = 7,

    /// <summary>Already pregnant.</summary>
    AlreadyPregnant = 8,

    /// <summary>Fewer than 11 days of the cycle in which she could be served.</summary>
    FewEligibleDays = 9,

    /// <summary>Served on a day on which she did not count as to be served.</summary>
    ServedWhenNotEligible = 10,

    /// <summary>Not looked at again.</summary>
    NotRechecked = 11,

    /// <summary>Not served again yet.</summary>
    NotServedAgain = 12,

    /// <summary>Served again before the answer was known.</summary>
    ServedBeforeAnswer = 13,

    /// <summary>No examination within 14 days of the sample.</summary>
    NotExamined = 14,

    /// <summary>Inconclusive or spoiled: no yes or no.</summary>
    NoYesOrNo = 15,

    /// <summary>Fell away: pregnant, or served again.</summary>
    FellAway = 16,

    /// <summary>Withheld: the gate was closed or the programme not approved.</summary>
    Withheld = 17,

    /// <summary>The conception is not on record: she calved without a service that fits.</summary>
    ConceptionUnknown = 18,

    /// <summary>Too recent for its outcomes to be known.</summary>
    Pending = 19,
}

/// <summary>The words of the reasons.</summary>
public static class LeftOutWords
{
    private static readonly (LeftOutReason Reason, string Word, string Sentence)[] Words =
    [
        (LeftOutReason.NoAnswerYet, "no-answer-yet", "served, no answer yet"),
        (LeftOutReason.InDoubt, "in-doubt", "inconclusive, or facts contradict"),
        (LeftOutReason.Left, "left", "left the herd first"),
        (LeftOutReason.NotToBeBred, "not-to-be-bred", "not to be bred"),
        (LeftOutReason.WithBull, "with-bull", "ran with a bull, no service day"),
        (LeftOutReason.NotReached, "not-reached", "not so far yet"),
        (LeftOutReason.NeverServed, "never-served", "never served"),
        (LeftOutReason.AlreadyPregnant, "already-pregnant", "pregnant before it began"),
        (LeftOutReason.FewEligibleDays, "few-eligible-days", "fewer than 11 days of the cycle to be served"),
        (LeftOutReason.ServedWhenNotEligible, "served-when-not-eligible", "served on a day on which she was not to be served"),
        (LeftOutReason.NotRechecked, "not-rechecked", "not looked at again"),
        (LeftOutReason.NotServedAgain, "not-served-again", "not served again yet"),
        (LeftOutReason.ServedBeforeAnswer, "served-before-answer", "served again before the answer"),
        (LeftOutReason.NotExamined, "not-examined", "no examination within 14 days"),
        (LeftOutReason.NoYesOrNo, "no-yes-or-no", "inconclusive or spoiled"),
        (LeftOutReason.FellAway, "fell-away", "fell away: pregnant or served again"),
        (LeftOutReason.Withheld, "withheld", "withheld by the gate or for want of approval"),
        (LeftOutReason.ConceptionUnknown, "conception-unknown", "calved, but no service on record fits"),
        (LeftOutReason.Pending, "pending", "too recent: answers are still to come"),
    ];

    /// <summary>The word of a reason, as programs read it.</summary>
    public static string Of(LeftOutReason reason) => Find(reason).Word;

    /// <summary>The reason in words.</summary>
    public static string Sentence(LeftOutReason reason) => Find(reason).Sentence;

    private static (LeftOutReason Reason, string Word, string Sentence) Find(LeftOutReason reason) => Array.Find(Words, w => w.Reason == reason);
}
