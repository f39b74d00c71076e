using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures.Histories;

namespace ReproLink.Calendar.Figures;

/// <summary>
/// The days of a lactation on which she is to be served (rule A): from the end of the waiting period on, less those on which
/// she is away, not to be bred, pregnant, with a bull, or served without a known outcome.
/// </summary>
internal sealed class EligibleDays
{
    private readonly Day _first;
    private readonly Day _last;
    private readonly List<Block> _blocks = [];

    public EligibleDays(LactationRecord lactation)
    {
        _first = lactation.Calved!.Value + lactation.WaitingPeriod;
        _last = lactation.LastDay;
        foreach (var service in lactation.Services)
        {
            // The service day itself counts.
            if (service.Outcome == ServiceOutcome.Pregnant)
            {
                _blocks.Add(new Block(service.Day + 1, service.LostOn - 1 ?? _last, service.Day));
            }
            else if (service.Outcome == ServiceOutcome.Unknown)
            {
                _blocks.Add(new Block(service.Day + 1, _last, service.Day));
            }
        }

        foreach (var spell in lactation.Log.Exposures)
        {
            var ended = lactation.Log.Results.Find(r => r.Fact.Id == spell.FailedBy).Fact;
            _blocks.Add(new Block(spell.First, ended?.Day - 1 ?? _last, null));
        }

        foreach (var spell in lactation.Log.NotToBeBred.Concat(lactation.Log.Away))
        {
            _blocks.Add(new Block(spell.From, spell.Until - 1 ?? _last, null));
        }

        _blocks.Sort((a, b) => a.From.CompareTo(b.From));
    }

    /// <summary>How many such days there are in a cycle. What a service inside the cycle leads to is not counted against it.</summary>
    public int In(Day start, Day end)
    {
        var (from, to) = (Day.Max(start, _first), Day.Min(end, _last));
        if (from > to)
        {
            return 0;
        }

        var days = to - from + 1;
        var next = from;
        foreach (var block in _blocks)
        {
            if (block.IsWithin(start, end))
            {
                continue;
            }

            var (begins, ends) = (Day.Max(block.From, next), Day.Min(block.To, to));
            if (begins <= ends)
            {
                days -= ends - begins + 1;
                next = ends + 1;
            }
        }

        return days;
    }

    /// <summary>Whether a day of a cycle is one.</summary>
    public bool IsEligible(Day day, Day start, Day end) =>
        day >= _first && day <= _last && !_blocks.Exists(b => !b.IsWithin(start, end) && day >= b.From && day <= b.To);

    private readonly record struct Block(Day From, Day To, Day? Served)
    {
        public bool IsWithin(Day start, Day end) => Served is { } served && served >= start && served <= end;
    }
}
