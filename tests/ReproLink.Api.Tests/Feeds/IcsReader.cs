using System.Globalization;
using System.Text;

namespace ReproLink.Api.Tests.Feeds;

/// <summary>One entry read from a feed.</summary>
internal sealed record IcsEntry(IReadOnlyDictionary<string, string> Properties)
{
    public string this[string name] => Properties[name];
}

/// <summary>
/// A small strict reader of RFC 5545, written for these tests and independent of the library that writes the feed: line ends,
/// folding at 75 octets, escapes, required properties.
/// </summary>
internal static class IcsReader
{
    public static IReadOnlyList<IcsEntry> Read(string text)
    {
        Assert.True(text.EndsWith("\r\n", StringComparison.Ordinal), "the last line has no end");
        var physical = text[..^2].Split("\r\n");
        Assert.All(physical, line =>
        {
            Assert.DoesNotContain('\n', line);
            Assert.True(Encoding.UTF8.GetByteCount(line) <= 75, $"a line of more than 75 octets: {line}");
        });
        var lines = Unfold(physical);
        Assert.Equal("BEGIN:VCALENDAR", lines[0]);
        Assert.Equal("END:VCALENDAR", lines[^1]);
        Assert.Contains("VERSION:2.0", lines);
        Assert.Contains(lines, l => l.StartsWith("PRODID:", StringComparison.Ordinal));
        return Entries(lines);
    }

    private static List<string> Unfold(string[] physical)
    {
        var lines = new List<string>();
        foreach (var line in physical)
        {
            if (line.StartsWith(' ') || line.StartsWith('\t'))
            {
                lines[^1] += line[1..];
            }
            else
            {
                lines.Add(line);
            }
        }

        return lines;
    }

    private static List<IcsEntry> Entries(List<string> lines)
    {
        var entries = new List<IcsEntry>();
        Dictionary<string, string>? open = null;
        foreach (var line in lines)
        {
            if (line == "BEGIN:VEVENT")
            {
                Assert.Null(open);
                open = new Dictionary<string, string>(StringComparer.Ordinal);
            }
            else if (line == "END:VEVENT")
            {
                entries.Add(Checked(new IcsEntry(open!)));
                open = null;
            }
            else if (open is not null)
            {
                var colon = line.IndexOf(':', StringComparison.Ordinal);
                Assert.True(colon > 0, $"no property: {line}");
                Assert.True(open.TryAdd(line[..colon], Unescape(line[(colon + 1)..])), $"twice: {line}");
            }
        }

        return entries;
    }

    private static IcsEntry Checked(IcsEntry entry)
    {
        Assert.True(entry.Properties.ContainsKey("UID"), "an entry without UID");
        Assert.True(DateTime.TryParseExact(entry["DTSTAMP"], "yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture, DateTimeStyles.None, out _));
        Assert.True(entry.Properties.Keys.Any(k => k.StartsWith("DTSTART", StringComparison.Ordinal)), "an entry without DTSTART");
        return entry;
    }

    private static string Unescape(string value) => value
        .Replace("\\n", "\n", StringComparison.Ordinal).Replace("\\,", ",", StringComparison.Ordinal)
        .Replace("\\;", ";", StringComparison.Ordinal).Replace("\\\\", "\\", StringComparison.Ordinal);
}
