using System.Globalization;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Conclusions;

/// <summary>
/// Pages of what is concluded of animals. A conclusion changes with a fact, with the rules, and by itself when a day or a
/// report comes that was announced before; it is dated by the last of these, so that a reader who asks from there misses none.
/// </summary>
internal static class ConclusionList
{
    // Stored instants are those at which requests came: one that came just before midnight may be stored after it. Readers
    // take a little more than they asked for.
    private static readonly Duration Overlap = Duration.FromMinutes(1);

    public static IResult Get<T>(HttpContext context, Store store, string noun, Func<AnimalConclusion, bool, T?> write)
        where T : ExchangeResource
    {
        var (request, query) = (context.Herd(), new PageQuery(context));
        if (query.Refusal is { } refusal)
        {
            return refusal;
        }

        if (query.Cursor is not null && Place.Read(query.Cursor) is null)
        {
            return query.WrongCursor();
        }

        var messages = Of(request, store, query, write);
        var page = messages.Take(query.Size).ToArray();
        var next = messages.Count > query.Size ? query.Next(request.Herd.Location, noun, page[^1].At.ToString()) : null;
        return Results.Ok(new MemberPage<T> { View = new PageView { PageSize = query.Size, Next = next }, Member = [.. page.Select(p => p.Message)] });
    }

    private static List<(Place At, T Message)> Of<T>(HerdRequest request, Store store, PageQuery query, Func<AnimalConclusion, bool, T?> write)
        where T : ExchangeResource
    {
        // Read before the herd: what is stored between is written with its older date, and comes again.
        var changes = store.Changes.LastChanges(request.Herd);
        var view = store.Views.Current(request.Herd, request.Now);
        var names = query.Animal is { } animal ? new AnimalResolver(view).Named(animal.Scheme, animal.Id) : null;
        var after = query.Cursor is { } cursor ? Place.Read(cursor) : null;
        var from = query.From - Overlap;
        // Of an animal whose last fact was withdrawn nothing is left but that she is gone.
        var gone = query.From is null ? [] : changes.Animals.Keys.Where(name => view.Find(name) is null)
            .Select(name => HistoryFold.Fold(new AnimalHistory(name, [], []), view.Rules, view.AsOf, view.KnownAt));
        return [.. view.Animals.Concat(gone)
            .Where(state => names?.Contains(state.Animal) ?? true)
            .Select(state => (At: new Place(ModifiedOf(state, changes, request), state.Animal), State: state))
            .Where(a => !(a.At.Modified < from) && !(a.At.Modified > query.To) && (after is null || a.At.CompareTo(after) > 0))
            .OrderBy(a => a.At)
            .Select(a => (a.At, Message: write(new AnimalConclusion(request.Herd.Location, request.Zone, a.State, a.At.Modified), query.From is not null)))
            .Where(a => a.Message is not null)
            .Take(query.Size + 1)
            .Select(a => (a.At, a.Message!))];
    }

    private static Instant ModifiedOf(AnimalState state, LastChanges changes, HerdRequest request)
    {
        var modified = changes.Animals.TryGetValue(state.Animal, out var changed) ? changed : Instant.FromUnixTimeTicks(0);
        modified = Instant.Max(modified, changes.Rules ?? modified);
        foreach (var fact in state.History.Facts)
        {
            var known = fact switch
            {
                TestResult result => result.Known,
                Examination examination => examination.Known ?? fact.Recorded,
                _ => fact.Recorded,
            };
            var recordedDay = Day.From(fact.Recorded.InZone(request.Zone).Date);
            var starts = fact.Day > recordedDay ? request.Zone.AtStartOfDay(fact.Day.Date).ToInstant() : known;
            var tells = Instant.Max(known, starts);
            modified = tells > modified && tells <= request.Now ? tells : modified;
        }

        return modified;
    }

    /// <summary>A place in the order of pages.</summary>
    private sealed record Place(Instant Modified, string Animal) : IComparable<Place>
    {
        public int CompareTo(Place? other)
        {
            var order = Modified.CompareTo(other!.Modified);
            return order != 0 ? order : string.CompareOrdinal(Animal, other.Animal);
        }

        public static Place? Read(string text)
        {
            var dash = text.IndexOf('-', StringComparison.Ordinal);
            return dash > 0 && long.TryParse(text.AsSpan(0, dash), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var ticks) && ticks is > 0 and < (1L << 60)
                ? new Place(Instant.FromUnixTimeTicks(ticks), text[(dash + 1)..])
                : null;
        }

        public override string ToString() => $"{Modified.ToUnixTimeTicks().ToString("x", CultureInfo.InvariantCulture)}-{Animal}";
    }
}
