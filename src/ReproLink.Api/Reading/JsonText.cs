using System.Text;
using System.Text.Json;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Reading;

/// <summary>JSON text to a document whose every text can be read.</summary>
internal static class JsonText
{
    private const int MaxDepth = 32;

    public static (JsonDocument? Document, Problem? Refusal) Parse(byte[] utf8)
    {
        try
        {
            CheckEscapes(utf8);
            return (JsonDocument.Parse(utf8, new JsonDocumentOptions { MaxDepth = MaxDepth }), null);
        }
        catch (JsonException bad)
        {
            var place = bad.LineNumber is { } line ? $" (line {line + 1})" : "";
            return (null, Problem.Of(ProblemTypes.BadJson, $"The body is not valid JSON{place}; allowed: UTF-8 JSON at most {MaxDepth} deep. Nothing was stored."));
        }
    }

    // The parser lets half a character (\ud800) pass and fails only when the text is taken out, so such texts are looked
    // for first; a body without escapes skips the search.
    private static void CheckEscapes(byte[] utf8)
    {
        if (utf8.AsSpan().IndexOf("\\u"u8) < 0)
        {
            return;
        }

        var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { MaxDepth = MaxDepth });
        while (reader.Read())
        {
            if (reader.ValueIsEscaped && reader.TokenType is (JsonTokenType.String or JsonTokenType.PropertyName))
            {
                try
                {
                    reader.GetString();
                }
                catch (InvalidOperationException half)
                {
                    var line = Encoding.UTF8.GetString(utf8.AsSpan(0, (int)reader.TokenStartIndex)).Count(c => c == '\n');
                    throw new JsonException("Half a character.", null, line, null, half);
                }
            }
        }
    }
}
