using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Testing;

/// <summary>What a candidate bounds.</summary>
public enum Bound
{
    /// <summary>First day: the latest of all binds.</summary>
    Opens = 1,

    /// <summary>Wanted day.</summary>
    Target = 2,

    /// <summary>Last useful day.</summary>
    Closes = 3,
}

/// <summary>Why a candidate is there; each has its rule and its sentence.</summary>
public enum CandidateCause
{
    /// <summary>T1: days after a service.</summary>
    Service = 1,

    /// <summary>T1: days after day 0 of an embryo transfer.</summary>
    EmbryoTransfer = 2,

    /// <summary>T2: days in milk.</summary>
    Calving = 3,

    /// <summary>T2: a pregnant found with caution is retested.</summary>
    Caution = 4,

    /// <summary>T3: days after a loss.</summary>
    Loss = 5,

    /// <summary>T4: days after the last day with the bull.</summary>
    Exposure = 6,

    /// <summary>Resample: days after an inconclusive sample.</summary>
    Inconclusive = 7,

    /// <summary>Resample: days after the sample or fact that raised a conflict.</summary>
    Contradiction = 8,

    /// <summary>W1: a confirmation window.</summary>
    Confirmation = 9,

    /// <summary>W2: the wanted day after service.</summary>
    Wanted = 10,

    /// <summary>W2: the last draw whose answer is back for the step it serves.</summary>
    Decision = 11,

    /// <summary>W2: the last useful day after service where no decision hangs on the test.</summary>
    Overdue = 12,

    /// <summary>T5, W1: the last day after an inconclusive, spoiled or overdue sample.</summary>
    ResampleEnd = 13,

    /// <summary>T2: a pregnant found twice with caution is retested some days after the last.</summary>
    CautionTwice = 14,
}

/// <summary>One dated bound of a window, with the rule and the fact it comes from. All are kept; explanations are printed from them.</summary>
/// <param name="Cause">Why.</param>
/// <param name="Bound">What it bounds.</param>
/// <param name="Date">The day.</param>
/// <param name="From">The day it is counted from.</param>
/// <param name="Fact">The fact it rests on; absent = none.</param>
public readonly record struct Candidate(CandidateCause Cause, Bound Bound, Day Date, Day From, FactId? Fact)
{
    /// <summary>The reason it stands for when it binds: also the order of ties (T1, T2, T3, T4, resample).</summary>
    public AnswerReason Reason => Cause switch
    {
        CandidateCause.Service or CandidateCause.EmbryoTransfer => AnswerReason.T1,
        CandidateCause.Calving or CandidateCause.Caution or CandidateCause.CautionTwice => AnswerReason.T2,
        CandidateCause.Loss => AnswerReason.T3,
        CandidateCause.Exposure => AnswerReason.T4,
        _ => AnswerReason.Resample,
    };

    /// <summary>The rule's id.</summary>
    public string Rule => Cause switch
    {
        CandidateCause.Service or CandidateCause.EmbryoTransfer => "T1",
        CandidateCause.Calving or CandidateCause.Caution or CandidateCause.CautionTwice => "T2",
        CandidateCause.Loss => "T3",
        CandidateCause.Exposure => "T4",
        CandidateCause.Inconclusive or CandidateCause.ResampleEnd => "T5",
        CandidateCause.Contradiction => "T7",
        CandidateCause.Confirmation => "W1",
        _ => "W2",
    };

    /// <summary>The sentence.</summary>
    public string Text
    {
        get
        {
            var days = Date - From;
            return Cause switch
            {
                CandidateCause.Service => $"{days} days after the service of {From.ToSentence()}",
                CandidateCause.EmbryoTransfer => $"{days} days after day 0, {From.ToSentence()}, of the embryo transfer",
                CandidateCause.Calving => $"{days} days in milk, calved on {From.ToSentence()}",
                CandidateCause.Caution => $"{days} days in milk, calved on {From.ToSentence()}: retest of a pregnant found too soon after calving to be sure",
                CandidateCause.CautionTwice => $"{days} days after she was found pregnant a second time with caution, {From.ToSentence()}",
                CandidateCause.Loss => $"{days} days after the loss of {From.ToSentence()}",
                CandidateCause.Exposure => $"{days} days after the last day with the bull, {From.ToSentence()}",
                CandidateCause.Inconclusive => $"{days} days after the inconclusive sample of {From.ToSentence()}",
                CandidateCause.Contradiction => $"{days} days after the contradicting fact of {From.ToSentence()}",
                CandidateCause.Confirmation => Bound == Bound.Opens
                    ? $"confirmation from {days} days after day 0, {From.ToSentence()}"
                    : $"confirmation until {days} days after day 0, {From.ToSentence()}",
                CandidateCause.Wanted => $"wanted {days} days after {From.ToSentence()}",
                CandidateCause.Decision => $"last draw whose answer is back for the step of {From.ToSentence()}",
                CandidateCause.Overdue => $"{days} days after {From.ToSentence()}",
                CandidateCause.ResampleEnd => $"{days} days after the sample of {From.ToSentence()}",
                _ => throw new InvalidOperationException($"no sentence for {Cause}"),
            };
        }
    }
}
