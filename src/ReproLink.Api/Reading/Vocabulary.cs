using System.Collections.Frozen;

namespace ReproLink.Api.Reading;

/// <summary>A closed list of words and what each means here.</summary>
internal sealed class Vocabulary<T>
    where T : struct
{
    private readonly FrozenDictionary<string, T> _byWord;
    private readonly FrozenDictionary<T, string> _byMeaning;

    public Vocabulary(params (string Word, T Meaning)[] words)
    {
        _byWord = words.ToFrozenDictionary(w => w.Word, w => w.Meaning, StringComparer.Ordinal);
        _byMeaning = words.ToFrozenDictionary(w => w.Meaning, w => w.Word);
        Words = [.. words.Select(w => w.Word)];
        Allowed = "one of " + string.Join(", ", Words);
    }

    public IReadOnlyList<string> Words { get; }

    /// <summary>The list in a refusal.</summary>
    public string Allowed { get; }

    public bool TryRead(string word, out T meaning) => _byWord.TryGetValue(word, out meaning);

    public string Word(T meaning) => _byMeaning[meaning];
}
