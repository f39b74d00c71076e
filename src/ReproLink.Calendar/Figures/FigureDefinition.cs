namespace ReproLink.Calendar.Figures;

/// <summary>The part of the report a figure stands in.</summary>
public enum FigureSection
{
    /// <summary>What becomes of services.</summary>
    Services = 1,

    /// <summary>How fast the herd becomes pregnant, by 21-day cycles.</summary>
    Cycles = 2,

    /// <summary>From calving on.</summary>
    Lactations = 3,

    /// <summary>The test.</summary>
    Tests = 4,

    /// <summary>The work.</summary>
    Work = 5,
}

/// <summary>What a figure is, as people read it; <c>docs/figures.md</c> is printed from it.</summary>
/// <param name="Id">Its id, e.g. <c>conception-risk</c>.</param>
/// <param name="Section">Where it stands.</param>
/// <param name="Name">Its name.</param>
/// <param name="Rule">The id of its rule, which stands beside every value of it.</param>
/// <param name="Sentence">Numerator and denominator in words.</param>
/// <param name="Trap">What it is easily mistaken for.</param>
/// <param name="Source">Where the definition comes from.</param>
public sealed record FigureDefinition(string Id, FigureSection Section, string Name, string Rule, string Sentence, string Trap, string Source);
