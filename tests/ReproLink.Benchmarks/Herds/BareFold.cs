using ReproLink.Calendar.Facts;

namespace ReproLink.Benchmarks.Herds;

/// <summary>
/// The least code that gets status and window of the invented herd right: one running state, no reasons, no programme, no
/// conflicts, no laboratory. What it says is compared with what the engine says, so that both did the work.
/// </summary>
internal struct BareFold(int today)
{
    private const int None = int.MinValue / 2;
    private int _animal = -1;
    private int _calved = None;
    private int _served = None;
    private int _drawn = None;
    private int _tested = None;
    private byte _status;
    private BareTotals _totals;

    public void Add(int animal, int day, int kind, int outcome)
    {
        if (animal != _animal)
        {
            Finish();
            (_animal, _calved, _served, _drawn, _status) = (animal, None, None, None, BareTotals.NotServed);
        }

        switch ((FactKind)kind)
        {
            case FactKind.Calving:
                (_calved, _served, _drawn, _status) = (day, None, None, BareTotals.NotServed);
                break;
            case FactKind.Insemination:
                (_served, _status) = (day, BareTotals.AwaitingTest);
                break;
            case FactKind.Sample:
                _drawn = day;
                break;
            case FactKind.Result:
                (_drawn, _tested) = (None, day);
                if (day - _served >= 28 && day - _calved >= 60)
                {
                    _status = (byte)outcome;
                }

                break;
        }
    }

    public BareTotals Done()
    {
        Finish();
        return _totals;
    }

    public static BareTotals Of(BareEvent[] events, int today)
    {
        var fold = new BareFold(today);
        foreach (ref readonly var one in events.AsSpan())
        {
            fold.Add(one.Animal, one.Day, one.Kind, one.Outcome);
        }

        return fold.Done();
    }

    private void Finish()
    {
        if (_animal < 0)
        {
            return;
        }

        _totals.Count(_status);
        switch (_status)
        {
            case BareTotals.AwaitingTest when _drawn == None:
                Window(_served + 28, _served + 45);
                break;
            case BareTotals.Recheck:
                Window(_tested + 7, _tested + 14);
                break;
            case BareTotals.Pregnant when today >= _served + 200:
                Window(_served + 200, _served + 220);
                break;
            case BareTotals.Pregnant when today >= _served + 74:
                Window(_served + 74, _served + 90);
                break;
        }
    }

    private void Window(int from, int to)
    {
        var opens = Math.Max(from, _calved + 60);
        var closes = Math.Max(to, opens);
        _totals.Window(opens, Math.Clamp(_served + 32, opens, closes), closes, today);
    }
}

/// <summary>What a fold of a herd comes to.</summary>
internal struct BareTotals
{
    public const byte NotServed = 0;
    public const byte Open = (byte)Outcome.Open;
    public const byte Pregnant = (byte)Outcome.Pregnant;
    public const byte Recheck = (byte)Outcome.Recheck;
    public const byte AwaitingTest = 10;

    public int OfNotServed { get; private set; }

    public int OfAwaitingTest { get; private set; }

    public int OfOpen { get; private set; }

    public int OfPregnant { get; private set; }

    public int OfRecheck { get; private set; }

    public int Eligible { get; private set; }

    /// <summary>Keeps the compiler from leaving the dates out.</summary>
    public long Dates { get; private set; }

    public void Count(byte status)
    {
        switch (status)
        {
            case AwaitingTest:
                OfAwaitingTest++;
                break;
            case Open:
                OfOpen++;
                break;
            case Pregnant:
                OfPregnant++;
                break;
            case Recheck:
                OfRecheck++;
                break;
            default:
                OfNotServed++;
                break;
        }
    }

    public void Window(int opens, int target, int closes, int today)
    {
        Dates = unchecked(Dates + opens + target + closes);
        Eligible += opens <= today ? 1 : 0;
    }
}
