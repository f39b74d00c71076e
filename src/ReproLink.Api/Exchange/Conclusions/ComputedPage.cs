using NodaTime;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Messages;

namespace ReproLink.Api.Exchange.Conclusions;

/// <summary>A page of messages that are computed when they are read. Only those of the page are made.</summary>
internal static class ComputedPage
{
    // Stored instants are those at which requests came: one that came just before midnight may be stored after it. Readers
    // take a little more than they asked for.
    private static readonly Duration Overlap = Duration.FromMinutes(1);

    /// <summary>The page that was asked for, of the collection at an address.</summary>
    public static IResult Of<T>(PageQuery query, string address, Func<IEnumerable<(Place At, Func<T?> Make)>> candidates)
        where T : ExchangeResource
    {
        if (query.Refusal is { } refusal)
        {
            return refusal;
        }

        var after = query.Cursor is { } cursor ? Place.Read(cursor) : null;
        if (query.Cursor is not null && after is null)
        {
            return query.WrongCursor();
        }

        var from = query.From - Overlap;
        // One more than asked for tells that there is a next page.
        var found = candidates()
            .Where(c => !(c.At.Modified < from) && !(c.At.Modified > query.To) && (after is null || c.At.CompareTo(after) > 0))
            .OrderBy(c => c.At)
            .Select(c => (c.At, Message: c.Make()))
            .Where(c => c.Message is not null)
            .Take(query.Size + 1)
            .ToArray();
        var page = found.Take(query.Size).ToArray();
        var next = found.Length > page.Length ? query.Next(address, page[^1].At.ToString()) : null;
        return Results.Ok(new MemberPage<T> { View = new PageView { PageSize = query.Size, Next = next }, Member = [.. page.Select(p => p.Message!)] });
    }
}
