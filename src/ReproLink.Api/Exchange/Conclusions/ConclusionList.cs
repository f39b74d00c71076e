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
    public static IResult Get<T>(HttpContext context, Store store, string noun, Func<AnimalConclusion, bool, T?> write)
        where T : ExchangeResource
    {
        var (request, query) = (context.Herd(), new PageQuery(context));
        return ComputedPage.Of(query, ExchangeAddress.Of(context, request.Herd.Location, noun), () => Candidates(request, store, query)
            .Select(a => (a.At, Make: (Func<T?>)(() => write(new AnimalConclusion(request.Herd.Location, request.Zone, a.State, a.At.Modified), query.From is not null)))));
    }

    private static IEnumerable<(Place At, AnimalState State)> Candidates(HerdRequest request, Store store, PageQuery query)
    {
        // Read before the herd: what is stored between is written with its older date, and comes again.
        var changes = store.Changes.LastChanges(request.Herd);
        var view = store.Views.Current(request.Herd, request.Now);
        var names = query.Animal is { } animal ? new AnimalResolver(view).Named(animal.Scheme, animal.Id) : null;
        // Of an animal whose last fact was withdrawn nothing is left but that she is gone.
        var gone = query.From is null ? [] : changes.Animals.Keys.Where(name => view.Find(name) is null)
            .Select(name => HistoryFold.Fold(new AnimalHistory(name, [], []), view.Rules, view.AsOf, view.KnownAt));
        return view.Animals.Concat(gone)
            .Where(state => names?.Contains(state.Animal) ?? true)
            .Select(state => (new Place(ModifiedOf(state, changes, request), state.Animal), state));
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
}
