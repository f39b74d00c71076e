using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Status;

/// <summary>What an animal went through, lactation by lactation, as the fold judged it. Filled while she is folded.</summary>
internal sealed class FoldLog
{
    private readonly List<LactationLog> _lactations = [new(null)];

    internal FoldLog(AnimalState state) => State = state;

    /// <summary>Where she ended up.</summary>
    public AnimalState State { get; }

    /// <summary>Her lactations in order; the first is what came before any calving on record.</summary>
    public IReadOnlyList<LactationLog> Lactations => _lactations;

    private LactationLog Now => _lactations[^1];

    public void Calved(Calving calving)
    {
        var next = new LactationLog(calving);
        // A word on breeding holds over a calving until it is taken back.
        if (Now.NotToBeBred is [.., { Until: null }])
        {
            next.NotToBeBred.Add(new Spell(calving.Day, null));
        }

        _lactations.Add(next);
    }

    public void Served(ServiceAttempt service) => Now.Services.Add(service);

    public void Exposed(ExposureSpell spell) => Now.Exposures.Add(spell);

    public void Lost(Loss loss) => Now.Losses.Add(loss);

    public void Judged(Fact result, Decision decision, Outcome? outcome) => Now.Results.Add(new JudgedResult(result, decision, outcome));

    public void Found(Pregnancy pregnancy)
    {
        if (Now.Pregnancies is not [.., var last] || last.Pregnancy != pregnancy)
        {
            Now.Pregnancies.Add(new PregnancyLog(pregnancy));
        }
    }

    public void Ended(Pregnancy pregnancy, FactId by, Day on, bool byExamination)
    {
        foreach (var found in Now.Pregnancies)
        {
            if (found.Pregnancy == pregnancy)
            {
                (found.EndedBy, found.EndedOn, found.EndedByExamination) = (by, on, byExamination);
                found.EndedInCaution = pregnancy.Caution;
            }
        }
    }

    public void Left(Day day) => Now.Away.Add(new Spell(day, null));

    public void Stays(Day day) => Close(Now.Away, day);

    public void NotToBeBred(Day day)
    {
        if (Now.NotToBeBred is not [.., { Until: null }])
        {
            Now.NotToBeBred.Add(new Spell(day, null));
        }
    }

    public void ToBeBred(Day day) => Close(Now.NotToBeBred, day);

    private static void Close(List<Spell> spells, Day day)
    {
        if (spells is [.., { Until: null } open])
        {
            spells[^1] = open with { Until = day };
        }
    }
}

/// <summary>A time from a day on.</summary>
/// <param name="From">First day.</param>
/// <param name="Until">The day from which it no longer holds; null = it still holds.</param>
internal readonly record struct Spell(Day From, Day? Until);

/// <summary>What happened from one calving to the next.</summary>
/// <param name="Calving">The calving it began with; null = before any on record.</param>
internal sealed record LactationLog(Calving? Calving)
{
    public List<ServiceAttempt> Services { get; } = [];

    public List<ExposureSpell> Exposures { get; } = [];

    public List<Loss> Losses { get; } = [];

    public List<PregnancyLog> Pregnancies { get; } = [];

    public List<JudgedResult> Results { get; } = [];

    public List<Spell> Away { get; } = [];

    public List<Spell> NotToBeBred { get; } = [];
}

/// <summary>A pregnancy that was found, and how it ended if it did before the calving.</summary>
/// <param name="Pregnancy">As found.</param>
internal sealed record PregnancyLog(Pregnancy Pregnancy)
{
    public FactId? EndedBy { get; set; }

    public Day? EndedOn { get; set; }

    public bool EndedByExamination { get; set; }

    /// <summary>Whether it still counted only with caution when it was overturned (T2).</summary>
    public bool EndedInCaution { get; set; }
}

/// <summary>A result or examination and what it did.</summary>
/// <param name="Fact">The result or examination.</param>
/// <param name="Decision">What it decided.</param>
/// <param name="Outcome">The outcome it was judged as (T8); null = none could be told.</param>
internal readonly record struct JudgedResult(Fact Fact, Decision Decision, Outcome? Outcome);
