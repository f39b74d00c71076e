using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Status;

/// <summary>
/// Folds an animal's facts into her state on a day (rules F1–F6, T1–T9). A pure function: the same facts, rules, day and
/// moment give the same state, in whatever order the facts were posted.
/// </summary>
public sealed partial class HistoryFold
{
    private readonly AnimalState _state;
    private readonly HerdRules _rules;
    private readonly Instant _knownBy;
    private readonly FoldTrace? _trace;
    private LocalTime? _before;
    private FoldLog? _log;
    private HashSet<(string Source, string SourceId)>? _confirmed;
    private List<Day>? _calvingDays;

    private HistoryFold(AnimalState state, HerdRules rules, Instant knownBy, FoldTrace? trace)
    {
        _state = state;
        _rules = rules;
        _knownBy = knownBy;
        _trace = trace;
    }

    /// <summary>The state of an animal.</summary>
    /// <param name="history">Her facts that count at <paramref name="knownAt"/>, in <see cref="FactOrder"/>.</param>
    /// <param name="rules">The herd's rules known at that moment.</param>
    /// <param name="asOf">The day looked at: facts that occurred later do not count (rule F1).</param>
    /// <param name="knownAt">The moment looked at: results reported later do not exist yet (rule F2).</param>
    /// <param name="trace">Filled with what each fact did; null = not wanted.</param>
    public static AnimalState Fold(AnimalHistory history, HerdRules rules, Day asOf, Instant knownAt, FoldTrace? trace = null)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(rules);
        // F2: for asOf a result exists if reported by the end of that local day and by knownAt.
        var endOfDay = rules.EndOf(asOf);
        var knownBy = knownAt < endOfDay ? knownAt : endOfDay - Duration.Epsilon;
        var state = new AnimalState(history, asOf);
        new HistoryFold(state, rules, knownBy, trace).Run();
        return state;
    }

    /// <summary>Folds an animal for what she went through, lactation by lactation: what <see cref="Fold"/> goes through and forgets.</summary>
    /// <param name="history">Her facts that count at <paramref name="knownAt"/>, in <see cref="FactOrder"/>.</param>
    /// <param name="rules">The herd's rules known at that moment.</param>
    /// <param name="asOf">The day looked at.</param>
    /// <param name="knownAt">The moment looked at.</param>
    internal static FoldLog Log(AnimalHistory history, HerdRules rules, Day asOf, Instant knownAt)
    {
        var endOfDay = rules.EndOf(asOf);
        var knownBy = knownAt < endOfDay ? knownAt : endOfDay - Duration.Epsilon;
        var log = new FoldLog(new AnimalState(history, asOf));
        new HistoryFold(log.State, rules, knownBy, null) { _log = log }.Run();
        return log;
    }

    /// <summary>
    /// The state in which a step finds an animal: facts that occurred before its time, results reported before its time
    /// (rule F2), as known at <paramref name="knownAt"/>.
    /// </summary>
    /// <param name="history">Her facts that count at <paramref name="knownAt"/>, in <see cref="FactOrder"/>.</param>
    /// <param name="rules">The herd's rules.</param>
    /// <param name="step">The step's wall-clock time.</param>
    /// <param name="stepAt">The same as an instant.</param>
    /// <param name="knownAt">The moment looked at.</param>
    public static AnimalState FoldBefore(AnimalHistory history, HerdRules rules, LocalDateTime step, Instant stepAt, Instant knownAt)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(rules);
        var before = stepAt - Duration.Epsilon;
        var state = new AnimalState(history, Day.From(step.Date));
        new HistoryFold(state, rules, knownAt < before ? knownAt : before, null) { _before = step.TimeOfDay }.Run();
        return state;
    }

    private void Run()
    {
        // Walked as the array it is: through the interface every look costs a call.
        var facts = _state.History.Facts as Fact[] ?? [.. _state.History.Facts];
        ReadCards(facts);
        for (var i = 0; i < facts.Length; i++)
        {
            var fact = facts[i];
            if (fact.Day > _state.AsOf)
            {
                break;
            }

            // A fact without a time counts from the start of its day (F3), so it is before every step of it.
            if (fact is AnimalCard || (_before is { } before && fact.Day == _state.AsOf && fact.Time >= before))
            {
                continue;
            }

            // F2: a result that is not reported yet does not exist yet.
            if (fact is TestResult result && result.Known > _knownBy)
            {
                continue;
            }

            _state.Exists = true;
            if (IsIdle(fact))
            {
                continue;
            }

            if (fact is TestResult)
            {
                i = FoldResultsOfDay(facts, i);
            }
            else
            {
                Apply(fact, facts, i);
            }

            _trace?.Status(fact.Day, _state.Status, fact.Id);
        }

        CountParity();
        DropAnsweredSamples(facts);
    }

    private void Apply(Fact fact, Fact[] facts, int index)
    {
        switch (fact)
        {
            case Arrival arrival:
                _state.LastArrival = arrival;
                _state.Departure = null;
                _log?.Stays(arrival.Day);
                break;
            case Calving calving:
                Calve(calving);
                break;
            case Loss loss:
                Lose(loss);
                break;
            case Oestrus oestrus:
                SeeOestrus(oestrus);
                break;
            case Service service:
                Serve(service);
                break;
            case Exposure exposure:
                Expose(exposure);
                break;
            case Sample sample:
                _state.Add(sample);
                break;
            case Examination examination:
                Examine(examination, facts, index);
                break;
            case Treatment treatment:
                Treat(treatment);
                break;
            case DoNotBreed doNotBreed:
                _state.DoNotBreed = doNotBreed;
                _log?.NotToBeBred(doNotBreed.Day);
                break;
            case BreedAgain:
                _state.DoNotBreed = null;
                _log?.ToBeBred(fact.Day);
                break;
            case DryOff dryOff:
                _state.DryOff = dryOff;
                break;
            case Departure departure:
                _state.Departure = departure;
                _log?.Left(departure.Day);
                break;
            case Confirm confirm:
                ApplyConfirm(confirm);
                break;
        }
    }

    // F4: facts before her birth and facts while she is away decide nothing. A confirmation without a date counts from the start.
    private bool IsIdle(Fact fact)
    {
        if (fact is Confirm { Dated: false })
        {
            return false;
        }

        if (_state.Card?.Born is { } born && fact.Day < born)
        {
            _trace?.Note(fact.Id, Reason.Of("F4", $"dated before her birth on {born.ToSentence()}: decides nothing", fact.Id, _state.Card.Id));
            return true;
        }

        if (_state.Departure is { } left && fact is not Arrival)
        {
            _trace?.Note(fact.Id, Reason.Of("F4", $"she left on {left.Day.ToSentence()}: decides nothing", fact.Id, left.Id));
            return true;
        }

        return false;
    }

    // Of several cards the one with the greatest (date, source, sourceId) counts. Undated cards sort first and always count.
    private void ReadCards(Fact[] facts)
    {
        foreach (var fact in facts)
        {
            if (fact.Day > _state.AsOf)
            {
                break;
            }

            if (fact is not AnimalCard card)
            {
                continue;
            }

            _state.Exists = true;
            if (_state.Card is null || Compare(card, _state.Card) > 0)
            {
                _state.Card = card;
            }

            if (card.Parity is { } parity)
            {
                _state.Parity = Math.Max(parity, _state.Parity ?? 0);
            }
        }
    }

    private static int Compare(AnimalCard a, AnimalCard b)
    {
        // A card without a date was put on her birth day so that it counts from there; it is still the lowest in this order.
        var order = (a.Dated ? a.Day : Day.Earliest).CompareTo(b.Dated ? b.Day : Day.Earliest);
        if (order == 0)
        {
            order = string.CompareOrdinal(a.Source, b.Source);
        }

        return order != 0 ? order : string.CompareOrdinal(a.SourceId, b.SourceId);
    }

    private void CountParity()
    {
        if (_calvingDays is { Count: > 0 })
        {
            _state.Parity = Math.Max(_calvingDays.Count, _state.Parity ?? 0);
        }

        _state.IsHeifer = _calvingDays is null && _state.Parity == 0;
    }

    private void ApplyConfirm(Confirm confirm)
    {
        var identity = (confirm.ConfirmsSource, confirm.ConfirmsSourceId);
        (_confirmed ??= []).Add(identity);
        _state.EndConflicts(c =>
            c.Kind is ConflictKind.CalvedWhileOpen or ConflictKind.CalvedTooSoon
            && _state.LastCalving is { } calving && calving.Id == c.RaisedBy
            && (calving.Source, calving.SourceId) == identity);
    }

    private bool IsConfirmed(Fact fact) => _confirmed is not null && _confirmed.Contains((fact.Source, fact.SourceId));
}
