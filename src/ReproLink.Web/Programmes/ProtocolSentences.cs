using ReproLink.Calendar.Protocols;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Programmes;

/// <summary>Protocols in words.</summary>
public static class ProtocolSentences
{
    /// <summary>The steps one after the other: what, and how long after the step it is counted from.</summary>
    public static IEnumerable<string> Steps(Protocol protocol)
    {
        ArgumentNullException.ThrowIfNull(protocol);
        foreach (var step in protocol.Steps)
        {
            var what = step.Optional ? T("protocol.optional", Say.Of(step.Kind)) : Say.Of(step.Kind);
            var anchor = step.Anchor is null ? null : protocol.Steps.First(s => s.Id == step.Anchor);
            yield return (anchor, step.Days, step.Hours) switch
            {
                (null, null or 0, null or 0) => T("protocol.first", what),
                (null, { } days, _) => Number("protocol.daysIn", days, what),
                (null, _, { } hours) => Number("protocol.hoursIn", hours, what),
                (_, 0, _) or (_, _, 0) => T("protocol.with", what, Say.Of(anchor.Kind)),
                (_, { } days, _) => Number("protocol.daysAfter", days, what, Say.Of(anchor.Kind)),
                (_, _, { } hours) => Number("protocol.hoursAfter", hours, what, Say.Of(anchor.Kind)),
                _ => what,
            };
        }
    }

    /// <summary>The animals it is for.</summary>
    public static string Animals(Protocol protocol) => T("animals." + ProtocolWords.Of(protocol.Class));

    /// <summary>How well it is known.</summary>
    public static string Evidence(Protocol protocol) => T("evidence." + ProtocolWords.Of(protocol.Evidence));
}
