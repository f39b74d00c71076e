using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <summary>A row of <c>round</c>.</summary>
internal sealed class RoundRow
{
    public const string Select = "SELECT round, recorded, day, name, specimen, created_by AS CreatedBy FROM round";

    public int Round { get; init; }

    public long Recorded { get; init; }

    public int Day { get; init; }

    public string? Name { get; init; }

    public string Specimen { get; init; } = "";

    public string CreatedBy { get; init; } = "";

    public Round ToRound(IReadOnlyList<Tube> tubes, IReadOnlyList<Dispatch> dispatches) =>
        new(Round, new Day(Day), Name, Specimen, Ticks.From(Recorded), CreatedBy, tubes, dispatches);
}

/// <summary>A row of <c>tube</c>.</summary>
internal sealed class TubeRow
{
    public const string Select = "SELECT round, number, animal, pen, need, days_post_service AS DaysPostService, redraws FROM tube";

    public int Round { get; init; }

    public int Number { get; init; }

    public string Animal { get; init; } = "";

    public string? Pen { get; init; }

    public string? Need { get; init; }

    public int? DaysPostService { get; init; }

    public int? Redraws { get; init; }

    public Tube ToTube(IEnumerable<TubeEventRow> events) => new(
        Round, Number, new TubePlan(Animal, Pen, Need, DaysPostService), Redraws, TubeStanding.Of(events.Select(e => e.ToEvent())));
}

/// <summary>A row of <c>tube_event</c>.</summary>
internal class TubeEventRow
{
    public const int Left = 0;

    public const string Select =
        "SELECT round, number, recorded, state, day, time, done_by AS DoneBy, reason, dispatch FROM tube_event";

    public int Round { get; init; }

    public int Number { get; init; }

    public long Recorded { get; init; }

    public int State { get; init; }

    public int Day { get; init; }

    public int Time { get; init; }

    public string? DoneBy { get; init; }

    public int? Reason { get; init; }

    public int? Dispatch { get; init; }

    public TubeEvent ToEvent() => State == Left
        ? new TubeDispatched(Ticks.From(Recorded), Dispatch ?? 0, new Day(Day))
        : new TubeMarked(Ticks.From(Recorded), (TubeState)State, new Day(Day))
        {
            Time = Time == FactEncoder.NoTime ? null : LocalTime.FromMillisecondsSinceMidnight(Time),
            By = DoneBy,
            Reason = (NotDrawnReason?)Reason,
        };
}

/// <summary>A row of <c>dispatch</c>.</summary>
internal sealed class DispatchRow
{
    public const string Select = "SELECT dispatch, at, sent_by AS SentBy, recorded FROM dispatch";

    public int Dispatch { get; init; }

    public long At { get; init; }

    public string SentBy { get; init; } = "";

    public long Recorded { get; init; }

    public Dispatch ToDispatch() => new(Dispatch, Ticks.From(At), SentBy, Ticks.From(Recorded));
}
