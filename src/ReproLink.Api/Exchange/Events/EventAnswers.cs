using NodaTime;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Events;

/// <summary>What became of messages, item by item.</summary>
internal static class EventAnswers
{
    public static BatchResult Of(EventItem item, EventPen? pen, Instant now) => new()
    {
        Id = item.IsRefused ? null : item.HeldId ?? item.Stored?.Id.ToString(),
        Meta = item.Meta(now),
        Messages = Messages(item, pen) is { Count: > 0 } messages ? messages : null,
    };

    public static BatchResult Of(HeldResult held) => new()
    {
        Id = held.HeldId,
        Meta = new MetaContract { Source = held.Draft.Source, SourceId = held.Draft.SourceId, Modified = held.End?.At ?? held.Received },
        Messages = [held.End is { } end
            ? Said("Information", "The result no longer waits", $"{end.Ending}: {end.Note}")
            : Waits(held.Draft.Reason)],
    };

    private static IReadOnlyList<ExchangeMessage> Messages(EventItem item, EventPen? pen)
    {
        if (item.IsRefused)
        {
            return [.. item.Problems.Select(ExchangeErrors.Of)];
        }

        if (item.Held is { } held)
        {
            return [Waits(held.Reason)];
        }

        if (item.Stored is not { } stored)
        {
            return [Said("Information", "Nothing was on record", "There is no event of that source and sourceId; nothing was changed.")];
        }

        return pen is null || stored.IsDeleted ? [] : [.. Warnings(pen.Of(stored))];
    }

    private static IEnumerable<ExchangeMessage> Warnings(EventOutput output) =>
        (output.Extension().Warnings ?? []).Select(w => Said("Warning", $"Odd by rule {w.Rule}", w.Text));

    private static ExchangeMessage Waits(string reason) =>
        Said("Warning", "The result waits", $"It is stored and waits for a person ({reason}); no animal it may mean is released for prostaglandin meanwhile.");

    private static ExchangeMessage Said(string severity, string title, string detail) => new() { Severity = severity, Title = title, Detail = detail };
}
