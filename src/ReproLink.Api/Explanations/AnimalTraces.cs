using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Api.Explanations;

/// <summary>Folds the animals a batch touched once more, this time noting what each fact did.</summary>
/// <param name="history">An animal as the batch leaves her.</param>
/// <param name="rules">The herd's rules.</param>
/// <param name="asOf">The herd's today.</param>
/// <param name="knownAt">The moment looked at: not before the batch was recorded.</param>
internal sealed class AnimalTraces(Func<string, AnimalHistory?> history, HerdRules rules, Day asOf, Instant knownAt)
{
    private readonly Dictionary<string, FoldTrace> _traces = new(StringComparer.Ordinal);
    private readonly Dictionary<string, AnimalState> _states = new(StringComparer.Ordinal);

    /// <summary>An animal as the batch leaves her; null = nothing is known of her.</summary>
    public AnimalState? StateOf(string animal)
    {
        Of(animal);
        return _states.GetValueOrDefault(animal);
    }

    public FoldTrace Of(string animal)
    {
        if (!_traces.TryGetValue(animal, out var trace))
        {
            _traces.Add(animal, trace = new FoldTrace());
            if (history(animal) is { } facts)
            {
                _states[animal] = HistoryFold.Fold(facts, rules, asOf, knownAt, trace);
            }
        }

        return trace;
    }
}
