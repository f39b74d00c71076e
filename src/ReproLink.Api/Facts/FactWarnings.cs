using ReproLink.Api.Explanations;
using ReproLink.Calendar.Facts;

namespace ReproLink.Api.Facts;

/// <summary>What is odd about a fact in the light of the others: it raises a conflict, or decides nothing.</summary>
internal static class FactWarnings
{
    public static IReadOnlyList<WarningContract> For(AnimalTraces traces, string animal, FactId fact)
    {
        List<WarningContract>? warnings = null;
        foreach (var (about, reason) in traces.Of(animal).Notes)
        {
            if (about == fact)
            {
                (warnings ??= []).Add(new WarningContract { Rule = reason.Rule, Text = reason.Text });
            }
        }

        return warnings ?? [];
    }
}
