using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Rounds;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Api.HeldResults;

/// <summary>Whose a held result may be, with everything that speaks for each.</summary>
internal sealed class HeldCandidates(HerdView view, TubeRegister register)
{
    private readonly HerdIndex _index = HerdIndex.Of(view);

    public IReadOnlyList<HeldCandidateAnswer> Of(HeldResult held, ReceivedResult? result)
    {
        var reasons = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        if (result is not null)
        {
            ByTube(reasons, result);
            ByName(reasons, result);
            ByWaitingSample(reasons, result);
        }

        foreach (var animal in held.Draft.MayMean.Append(held.Draft.Animal))
        {
            if (animal is not null && view.Find(animal) is not null && !reasons.ContainsKey(animal))
            {
                Add(reasons, animal, "it may mean her");
            }
        }

        return [.. reasons
            .OrderByDescending(r => r.Value.Count)
            .ThenBy(r => r.Key, NaturalOrder.Instance)
            .Select(r => new HeldCandidateAnswer { Animal = r.Key, Pen = view.Find(r.Key)?.Card?.Pen, Reasons = r.Value })];
    }

    private void ByTube(Dictionary<string, List<string>> reasons, ReceivedResult result)
    {
        if (result.Tube is not { } tube)
        {
            return;
        }

        if (TubeNames.Read(tube) is var (round, number) && register.Find(round)?.Find(number) is { } label)
        {
            Add(reasons, label.Animal, $"the label of {label.Name} is hers, {Standing(label)}");
            return;
        }

        foreach (var animal in _index.WithTube(tube, result.Fact.Day))
        {
            Add(reasons, animal.Animal, $"a sample of hers is in the tube '{tube}'");
        }
    }

    private static string Standing(Tube label) => label.Standing switch
    {
        { HasBlood: true, Marked: { } drawn } => $"drawn on {drawn.Day}",
        { State: TubeState.NotDrawn } => "not drawn",
        { State: TubeState.Broken } => "broken",
        _ => "not recorded as drawn",
    };

    private void ByName(Dictionary<string, List<string>> reasons, ReceivedResult result)
    {
        if (result.Animal is not { } name)
        {
            return;
        }

        if (view.Find(name) is { } own)
        {
            Add(reasons, own.Animal, $"'{name}' is her name");
        }

        var identified = _index.WithIdentifier(name);
        foreach (var animal in identified)
        {
            Add(reasons, animal.Animal, $"she carries the identifier '{name}'");
        }

        foreach (var animal in _index.Alike(name).Except(identified).Where(a => a.Animal != name))
        {
            Add(reasons, animal.Animal, $"'{name}' is like a name or identifier of hers but for blanks or leading zeros");
        }
    }

    // A slip of the pen among those whose result is awaited.
    private void ByWaitingSample(Dictionary<string, List<string>> reasons, ReceivedResult result)
    {
        foreach (var animal in view.Animals)
        {
            if (!animal.PendingSamples.Any(s => s.Day == result.Fact.Day))
            {
                continue;
            }

            if (reasons.ContainsKey(animal.Animal))
            {
                Add(reasons, animal.Animal, "her sample of that day waits for a result");
            }
            else if (result.Animal is { } name && OneSlip(name, animal.Animal))
            {
                Add(reasons, animal.Animal, $"'{name}' is one slip away from her name, and her sample of that day waits for a result");
            }
        }
    }

    /// <summary>Whether one text is the other with one character more, less or changed, or two neighbours swapped.</summary>
    private static bool OneSlip(string a, string b)
    {
        if (Math.Abs(a.Length - b.Length) > 1 || a == b)
        {
            return false;
        }

        var from = 0;
        while (from < a.Length && from < b.Length && a[from] == b[from])
        {
            from++;
        }

        ReadOnlySpan<char> left = a.AsSpan(from), right = b.AsSpan(from);
        return left.Length == right.Length
            ? left[1..].SequenceEqual(right[1..])
                || (left.Length > 1 && left[0] == right[1] && left[1] == right[0] && left[2..].SequenceEqual(right[2..]))
            : left.Length > right.Length ? left[1..].SequenceEqual(right) : right[1..].SequenceEqual(left);
    }

    private static void Add(Dictionary<string, List<string>> reasons, string animal, string reason) =>
        (reasons.TryGetValue(animal, out var list) ? list : reasons[animal] = []).Add(reason);
}
