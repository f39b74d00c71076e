namespace ReproLink.TestSupport.DemoHerd;

/// <summary>A small reproducible dice: the same herd on every machine and every run.</summary>
internal sealed class Chance(ulong seed)
{
    private ulong _state = seed;

    /// <summary>A whole number in [from, to].</summary>
    public int Between(int from, int to) => from + (int)(Next() % (ulong)(to - from + 1));

    /// <summary>True in <paramref name="percent"/> of a hundred cases.</summary>
    public bool In(int percent) => Between(1, 100) <= percent;

    public T Of<T>(params T[] choices) => choices[Between(0, choices.Length - 1)];

    // splitmix64: short, well mixed, and the same everywhere.
    private ulong Next()
    {
        unchecked
        {
            _state += 0x9E3779B97F4A7C15;
            var z = _state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return (z ^ (z >> 31)) >> 1;
        }
    }
}
