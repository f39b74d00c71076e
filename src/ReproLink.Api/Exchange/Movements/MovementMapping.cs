using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Movements;

/// <summary>Arrivals, departures and deaths.</summary>
internal static class MovementMapping
{
    private const string Died = "died";
    private const int MostCalvings = 30;

    private static readonly HashSet<string> Kinds =
    [
        "InternalTransfer", "Export", "Slaughter", "Newborn", "StudService", "StudServiceReturn", "Agistment", "AgistmentReturn", "Show", "ShowReturn",
        "Sale", "SaleReturn", "Other",
    ];

    private static readonly HashSet<string> Reasons =
    [
        "Age", "Superfluous", "Slaughter", "Sale", "Newborn", "LegOrClaw", "Nutrition", "Parturition", "Mastitis", "Fertility", "Health", "Production",
        "MilkingAbility", "BadType", "Behaviour", "Other", "Unknown",
    ];

    private static readonly HashSet<string> DeathReasons =
    [
        "Missing", "Parturition", "Disease", "Accident", "Consumption", "Culled", "Other", "Unknown", "Age", "Mastitis", "Production", "LegOrClaw",
        "MilkingAbility", "Nutrition", "Fertility",
    ];

    public static readonly EventNoun Arrivals = new EventNoun<ArrivalEvent>(
        "arrivals", "arrival", "icarMovementArrivalEventResource", new KindSet(FactKind.Arrival), _ => new ArrivalEvent())
    {
        Read = input =>
        {
            var (day, time) = input.When();
            return new Arrival(day) { Time = time };
        },
        Besides = [("#animal", ReadCard), ("#calving", ReadCalving), ("#insemination", ReadInsemination), ("#drying-off", ReadDryOff)],
        Description = """
            What `animalDetail` and `animalState` say of her becomes facts of their own, with the arrival's id and a suffix: a bought-in cow may come
            inseminated. Sent again without them, those facts are withdrawn.
            """,
        Example = """
            "eventDateTime":"2026-10-01T00:00:00Z","animalState":{"currentLactationParity":2,"lastCalvingDate":"2026-05-02","lastInseminationDate":"2026-08-20"}
            """,
    };

    public static readonly EventNoun Departures = new EventNoun<DepartureEvent>(
        "departures", "departure", "icarMovementDepartureEventResource", new KindSet(FactKind.Departure), WriteDeparture)
    {
        Shows = fact => !IsDeath(fact),
        Read = input =>
        {
            var (day, time) = input.When();
            return new Departure(day) { Time = time, Reason = Joined(input.Words("departureKind"), input.Words("departureReason")) ?? input.Words("remark") };
        },
        Description = "She left the herd alive.",
        Example = """
            "eventDateTime":"2026-10-02T00:00:00Z","departureKind":"Sale","departureReason":"Fertility"
            """,
    };

    public static readonly EventNoun Deaths = new EventNoun<DeathEvent>(
        "deaths", "death", "icarMovementDeathEventResource", new KindSet(FactKind.Departure), WriteDeath)
    {
        Shows = IsDeath,
        Read = input =>
        {
            var (day, time) = input.When();
            return new Departure(day) { Time = time, Reason = Joined(Died, input.Words("deathReason")) };
        },
        Description = "She died. Among the facts it is a departure whose reason begins with `died`.",
        Example = """
            "eventDateTime":"2026-10-02T00:00:00Z","deathReason":"Disease"
            """,
    };

    public static bool IsDeath(Fact fact) =>
        fact is Departure { Reason: { } reason } && reason.StartsWith(Died, StringComparison.OrdinalIgnoreCase);

    private static string? Joined(string? first, string? second) => (first, second) switch
    {
        (null, _) => second,
        (_, null) => first,
        _ => $"{first}: {second}",
    };

    private static DepartureEvent WriteDeparture(EventOutput output)
    {
        var reason = ((Departure)output.Fact).Reason;
        var parts = reason?.Split(": ") ?? [];
        var kind = parts.FirstOrDefault(Kinds.Contains);
        var why = parts.Skip(kind is null ? 0 : 1).FirstOrDefault(Reasons.Contains);
        return new DepartureEvent { DepartureKind = kind, DepartureReason = why, Remark = kind is null && why is null ? reason : null };
    }

    private static DeathEvent WriteDeath(EventOutput output)
    {
        var reason = ((Departure)output.Fact).Reason!;
        var why = reason.Split(": ").Skip(1).FirstOrDefault(DeathReasons.Contains);
        return new DeathEvent { DeathReason = why, Remark = why is null ? reason : null };
    }

    private static ObjectReader? State(EventInput input) => input.Reader.Object("animalState");

    private static AnimalCard? ReadCard(EventInput input)
    {
        var detail = input.Reader.Object("animalDetail");
        // The standard's parity is a number, whole or not.
        var parity = State(input)?.Number("currentLactationParity") is { } number and >= 0 and <= MostCalvings ? (int)number : (int?)null;
        if (detail is null && parity is null)
        {
            return null;
        }

        var card = detail is null ? AnimalMapping.Bare(input.Animal) : AnimalMapping.ReadCard(detail, input, input.Animal);
        return card with { Parity = parity };
    }

    private static Calving? ReadCalving(EventInput input) => input.Date(State(input), "lastCalvingDate") is { } day ? new Calving(day) : null;

    private static Insemination? ReadInsemination(EventInput input) =>
        input.Date(State(input), "lastInseminationDate") is { } day ? new Insemination(day) : null;

    private static DryOff? ReadDryOff(EventInput input) => input.Date(State(input), "lastDryingOffDate") is { } day ? new DryOff(day) : null;
}
