using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Status;

/// <summary>One service of the lactation: inseminations at most 3 days apart are one, dated by the last.</summary>
public sealed class ServiceAttempt
{
    internal ServiceAttempt(Service fact)
    {
        Fact = fact;
        First = fact;
    }

    /// <summary>The fact that dates it: of a group of inseminations, the last.</summary>
    public Service Fact { get; internal set; }

    /// <summary>The first insemination of the group.</summary>
    public Service First { get; }

    /// <summary>Day 0.</summary>
    public Day DayZero => Fact.DayZero;

    /// <summary>The fact that failed it: a valid <c>open</c> that covers it; absent = not failed.</summary>
    public FactId? FailedBy { get; internal set; }
}

/// <summary>A spell with a bull that counts for the lactation (rule T4).</summary>
public sealed class ExposureSpell
{
    internal ExposureSpell(Exposure fact, Day first, Day? last)
    {
        Fact = fact;
        First = first;
        Last = last;
    }

    /// <summary>The fact.</summary>
    public Exposure Fact { get; }

    /// <summary>First day that counts: the later of its first day and the calving.</summary>
    public Day First { get; }

    /// <summary>Last day with the bull; absent = he is still in on the day looked at.</summary>
    public Day? Last { get; }

    /// <summary>The fact that failed it; absent = not failed.</summary>
    public FactId? FailedBy { get; internal set; }
}

/// <summary>A recorded loss since the calving.</summary>
/// <param name="Fact">The fact.</param>
/// <param name="AgeDays">Age of the lost pregnancy; absent = unknown.</param>
public sealed record LossRecord(Loss Fact, int? AgeDays)
{
    /// <summary>T3: days from the loss to the first sample that counts, by the rules that govern her.</summary>
    public int ClearanceDays(TestRules test)
    {
        ArgumentNullException.ThrowIfNull(test);
        return AgeDays < test.LateLossFromDay ? test.ClearanceEarlyLoss : test.ClearanceLateLoss;
    }
}

/// <summary>A row of inconclusive results (rule T5).</summary>
/// <param name="Count">How many in a row; 2 = only an examination, a calving or a new service's own test decides.</param>
/// <param name="Sample">Sample day of the last.</param>
/// <param name="Fact">The last.</param>
public sealed record RecheckRow(int Count, Day Sample, FactId Fact)
{
    /// <summary>The latest service begun after the last of the row: it breaks the row, its own test decides.</summary>
    public ServiceAttempt? NewService { get; init; }

    /// <summary>Whether only an examination, a calving or a new service's own test decides.</summary>
    public bool IsDouble => Count >= 2;
}

/// <summary>A <c>pregnant</c> that came too early to decide but closes the gate (rules T5, S4).</summary>
/// <param name="Sample">Its sample day.</param>
/// <param name="Fact">The fact.</param>
public sealed record PresumedPregnant(Day Sample, FactId Fact);

/// <summary>The latest valid <c>open</c> of the lactation.</summary>
/// <param name="Sample">Its sample or examination day.</param>
/// <param name="Fact">The fact.</param>
/// <param name="ByExamination">Whether a person examined her.</param>
public sealed record OpenFinding(Day Sample, FactId Fact, bool ByExamination);
