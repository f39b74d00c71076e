using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>One service (first = last = day 0) or one exposure (last absent: the bull is in).</summary>
internal sealed class Attempt
{
    public required bool IsExposure { get; init; }
    public required bool IsInsemination { get; init; }
    public required Day First { get; set; }
    public required Day? Last { get; set; }

    /// <summary>The day of the deed, where it is not day 0: an embryo transfer.</summary>
    public Day? Done { get; init; }

    public bool Failed { get; set; }
    public bool AfterDoubleRecheck { get; set; }

    public bool CoveredForOpen(Day day, int days) => Last is { } last && last + days <= day;

    public bool CoveredForPregnant(Day day, int days) => First + days <= day;
}

/// <summary>A pregnancy that stands; without an attempt it has no dates.</summary>
internal sealed class Standing
{
    public required List<Attempt> DatedBy { get; init; }

    /// <summary>The day on which each was first seen to date her: the bull cannot have made later what was seen then.</summary>
    public required Dictionary<Attempt, Day> SeenOn { get; init; }

    public bool Caution { get; set; }
    public List<Day> Positives { get; } = [];

    /// <summary>T2: found twice with caution, an open counts from 7 days after the last.</summary>
    public Day? RetestFrom => Caution && Positives.Count > 1 ? Positives.Max() + 7 : null;

    public Day? From => DatedBy.Count == 0 ? null : DatedBy.Min(a => a.First);

    /// <summary>The last day that dates her: of an exposure its last day, not after the day on which she was found pregnant.</summary>
    public Day? To => DatedBy.Count == 0 ? null : DatedBy.Max(a => Day.Min(a.Last ?? SeenOn[a], SeenOn[a]));
}

/// <summary>A conflict of T7 by its letter; what it hangs on.</summary>
internal sealed record Trouble(char Letter, Day Day, Attempt? Attempt = null, Calving? Calving = null);

/// <summary>Everything the naive fold knows of her.</summary>
internal sealed class OracleCow
{
    public bool Left { get; set; }
    public bool DoNotBreed { get; set; }
    public bool Heifer { get; set; }
    public Day? Calved { get; set; }
    public Day? LatestServiceEver { get; set; }
    public List<Attempt> Attempts { get; set; } = [];
    public List<(Day Day, int? Age)> Losses { get; set; } = [];
    public List<Trouble> Troubles { get; set; } = [];
    public Standing? Pregnancy { get; set; }

    /// <summary>Days on which nothing but a spoiled sample was tested.</summary>
    public List<Day> Spoiled { get; } = [];

    /// <summary>The sample day of the inconclusive result that waits for a decision.</summary>
    public Day? Recheck { get; set; }

    /// <summary>Inconclusive results in a row; a new service breaks the row.</summary>
    public int Row { get; set; }

    /// <summary>Two came in a row: only an examination, a calving or a new service's own test decides.</summary>
    public bool DoubleRecheck { get; set; }

    /// <summary>Her facts that decide, in order.</summary>
    public List<Fact> Counting { get; set; } = [];

    /// <summary>After two inconclusive in a row: whether a sample is the own test of the latest service since.</summary>
    public bool IsOwnTest(Day day, int days) => Attempts.LastOrDefault(a => a.AfterDoubleRecheck)?.CoveredForOpen(day, days) == true;

    public List<Attempt> NotFailed => Attempts.Where(a => !a.Failed).ToList();

    public bool Has(string letters) => Troubles.Any(t => letters.Contains(t.Letter, StringComparison.Ordinal));

    public void ForgetRecheck()
    {
        Recheck = null;
        Row = 0;
        DoubleRecheck = false;
        Attempts.ForEach(a => a.AfterDoubleRecheck = false);
    }

    public string Underneath =>
        Troubles.Count > 0 ? "conflict"
        : Recheck is not null ? "recheck"
        : Pregnancy is { Caution: true } ? "pregnant-caution"
        : Pregnancy is not null ? "pregnant"
        : NotFailed.Count > 0 ? "awaiting-test"
        : Attempts.Count > 0 ? "open"
        : "not-served";

    public string Shown => Left ? "left" : DoNotBreed ? "do-not-breed" : Underneath;
}
