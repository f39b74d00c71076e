namespace ReproLink.Benchmarks.Herds;

/// <summary>Chance that falls the same way in every run: a generator after Steele, Lea and Flood (2014).</summary>
internal struct Dice(ulong seed)
{
    private ulong _state = seed;

    /// <summary>A number from 0 to <paramref name="below"/> − 1.</summary>
    public int Below(int below)
    {
        unchecked
        {
            var z = _state += 0x9E3779B97F4A7C15UL;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
            return (int)((z ^ (z >> 31)) % (ulong)below);
        }
    }

    public int Between(int from, int to) => from + Below(to - from + 1);

    public bool Percent(int percent) => Below(100) < percent;
}
