using System.Text.Json;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <content>What the script at the chute says, where the network may be gone.</content>
public static partial class Say
{
    private const string OfScript = "chute.script.";

    /// <summary>The sentences as the script reads them, with what it writes a day and a time by.</summary>
    public static string Chute() => JsonSerializer.Serialize(
        Language.English.Keys.Where(k => k.StartsWith(OfScript, StringComparison.Ordinal)).Select(k => (Word: k[OfScript.Length..], Said: T(k)))
            .Concat(Enumerable.Range(1, 7).Select(d => ($"weekday.{d}", OfDates($"weekday.short.{d}"))))
            .Concat(Enumerable.Range(1, 12).Select(m => ($"month.{m}", MonthShort(m))))
            .Append(("day", OfDates("date.short." + Reader.Current.Dates)))
            .Concat(Reader.Current.TwelveHours ? [("am", OfDates("time.am")), ("pm", OfDates("time.pm"))] : Array.Empty<(string, string)>())
            .ToDictionary(w => w.Item1, w => w.Item2));
}
