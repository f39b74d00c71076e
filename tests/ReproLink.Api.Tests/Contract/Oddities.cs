using System.Text;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Contract;

/// <summary>Values nobody expects.</summary>
internal static class Oddities
{
    public static readonly string[] Texts =
    [
        "", " ", "\t", "x", "null", "true", "-1", "0", "1", "9e99", "NaN", "99999999999999999999", "2147483648", "2026-02-30", "2026-10-05", "2026-10-05T12:00:00Z",
        "2026-10-05T12:00:00+14:00", "2026-10-05T12:00", "0001-01-01", "2999-12-31", "9999-12-31", "9999-12-31T23:59:59Z", "-0001-01-01", "24:00", "23:59", "'; DROP TABLE fact; --",
        "<script>alert(1)</script>", "a/b", "a\\b", "..%2f", "é", "\u202e\u05d0", "\ud83d\udc04", "a\u0000b", "\r\nX: y", "%", "%41", "*", "{animal}", "f_", "f_0000000000000",
        "h_zzzzzzzzzzzzz", "R1", "R0", "R99999999999", "R12-003", "holstein", "Europe/Berlin", "monday", "pgf", "\"", "[]", "{}", new string('a', 101), new string('\u00e9', 3000),
    ];

    private static readonly string[] Numbers = ["0", "-1", "1", "0.5", "1.0", "1e2", "-0", "2147483647", "2147483648", "-9223372036854775809", "1e308", "1e-400", "99999999999999999999999999"];

    /// <summary>Any JSON at all.</summary>
    public static JsonNode? Json(Random random, int depth = 0) => random.Next(depth > 2 ? 5 : 8) switch
    {
        0 => null,
        1 => JsonValue.Create(random.Next(2) == 0),
        2 => JsonNode.Parse(Numbers[random.Next(Numbers.Length)]),
        3 or 4 => JsonValue.Create(Text(random)),
        5 => new JsonArray([.. Enumerable.Range(0, random.Next(4)).Select(_ => Json(random, depth + 1))]),
        _ => new JsonObject(Enumerable.Range(0, random.Next(4)).Select(i => KeyValuePair.Create($"p{i}", Json(random, depth + 1)))),
    };

    public static string Text(Random random) => Texts[random.Next(Texts.Length)];

    /// <summary>The same body, damaged as text.</summary>
    public static byte[] Damaged(byte[] body, Random random)
    {
        var text = Encoding.UTF8.GetString(body);
        var at = random.Next(text.Length + 1);
        return random.Next(12) switch
        {
            0 => [],
            1 => Bytes(text[..at]),
            2 => Bytes(text.Insert(at, ",")),
            3 => [.. Bytes(text[..at]), 0xff, 0xfe, .. Bytes(text[at..])],
            4 => [.. Bytes(text[..at]), 0xed, 0xa0, 0x80, .. Bytes(text[at..])],
            5 => [.. Encoding.UTF8.Preamble, .. body],
            6 => Bytes(text.Replace("\":", "\":\"\\ud800\",\"\\udc00\":", StringComparison.Ordinal)),
            7 => Bytes(string.Concat(Enumerable.Repeat("[", 5000)) + string.Concat(Enumerable.Repeat("]", 5000))),
            8 => Bytes(string.Concat(Enumerable.Repeat("{\"a\":", 63)) + "1" + string.Concat(Enumerable.Repeat("}", 63))),
            9 => Bytes(text.Replace("{", "{\"sourceId\":\"twice\",\"sourceId\":\"twice\",", StringComparison.Ordinal)),
            10 => Bytes("// words\n" + text),
            _ => Encoding.Unicode.GetBytes(text),
        };
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
