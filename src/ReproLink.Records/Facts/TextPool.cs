using System.Buffers;
using System.Text;

namespace ReproLink.Records;

/// <summary>
/// Shares the texts that repeat among a herd's facts (a sire's name and breed, an assay), parsed once each. Bounded:
/// texts that name a tube never repeat.
/// </summary>
internal sealed class TextPool
{
    private const int Most = 4096;
    private readonly Dictionary<string, FactTexts> _known = new(StringComparer.Ordinal);
    private readonly Dictionary<string, FactTexts>.AlternateLookup<ReadOnlySpan<char>> _byText;
    private readonly Dictionary<string, string> _words = new(StringComparer.Ordinal);

    public TextPool() => _byText = _known.GetAlternateLookup<ReadOnlySpan<char>>();

    public FactTexts Get(ReadOnlySpan<byte> utf8)
    {
        if (utf8.IsEmpty)
        {
            return FactTexts.None;
        }

        var buffer = ArrayPool<char>.Shared.Rent(Encoding.UTF8.GetMaxCharCount(utf8.Length));
        var text = buffer.AsSpan(0, Encoding.UTF8.GetChars(utf8, buffer));
        var texts = _byText.TryGetValue(text, out var known) ? known : Add(text);
        ArrayPool<char>.Shared.Return(buffer);
        return texts;
    }

    private FactTexts Add(ReadOnlySpan<char> text)
    {
        var texts = Share(FactTexts.Read(text));
        if (_known.Count < Most)
        {
            _known.Add(text.ToString(), texts);
        }

        return texts;
    }

    // The words that repeat while others beside them do not.
    private FactTexts Share(FactTexts texts) => texts with
    {
        Sire = Share(texts.Sire),
        SireBreed = Share(texts.SireBreed),
        Technician = Share(texts.Technician),
        Breed = Share(texts.Breed),
        Pen = Share(texts.Pen),
        Specimen = Share(texts.Specimen),
        Unit = Share(texts.Unit),
        Assay = Share(texts.Assay),
        Reason = Share(texts.Reason),
        Source = Share(texts.Source),
    };

    private string? Share(string? word)
    {
        if (word is null)
        {
            return null;
        }

        if (_words.TryGetValue(word, out var shared))
        {
            return shared;
        }

        if (_words.Count < Most)
        {
            _words.Add(word, word);
        }

        return word;
    }
}
