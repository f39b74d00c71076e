namespace ReproLink.Api.OpenApi;

/// <summary>The closed list of words a text is one of, for the document.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class WordsAttribute(params string[] words) : Attribute
{
    public IReadOnlyList<string> Words { get; } = words;
}
