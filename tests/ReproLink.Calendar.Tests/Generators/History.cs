using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Tests.Generators;

/// <summary>Turns moves into the facts of one animal.</summary>
internal sealed class History
{
    private static readonly int[] AfterService = [26, 27, 28, 28, 28, 29, 31, 32, 34, 35, 36, 45, 60, 74, 75, 90, 91, 200, 210, 221];
    private static readonly int[] AfterCalving = [58, 59, 60, 60, 61, 72, 73, 89, 90, 91];
    private static readonly int[] AfterSample = [0, 0, 1, 6, 7, 7, 8, 13, 14, 15, 20, 21];
    private static readonly int[] AfterLoss = [13, 14, 14, 15, 59, 60, 61];
    private static readonly int[] Gestation = [150, 199, 200, 259, 260, 278, 283];
    private static readonly int[] BetweenServices = [0, 1, 2, 3, 4, 5, 18, 21, 22];
    private readonly List<(Fact Fact, int Order)> _facts = [];
    private Day _now = RandomAnimals.Start;
    private Day? _service;
    private Day? _calving;
    private Day? _sample;
    private Day? _loss;
    private string? _calvingId;

    public static Fact[] Of(string name, int opening, Move[] moves)
    {
        var history = new History();
        history.Open(opening);
        foreach (var move in moves)
            history.Take(move);
        return [.. history._facts.OrderBy(f => f.Order).ThenBy(f => f.Fact.SourceId, StringComparer.Ordinal).Select(f => f.Fact)];
    }

    // A cow that calved, a cow without a calving on record, heifers, no card, a card without parity, one that arrived.
    private void Open(int opening)
    {
        var card = new AnimalCard(Day.Earliest) { Parity = opening switch { < 5 => 1, < 8 => 0, _ => null } };
        if (opening != 9)
            Add(card, 0, 0);
        if (opening == 1)
            Add(new AnimalCard(RandomAnimals.Start + 40) { Dated = true, Parity = 2, Born = RandomAnimals.Start + 5 }, 3, 0);
        if (opening == 7)
            Add(new Arrival(_now + 3), 1, 0);
        if (opening < 4)
            Calve(_now + 1, new Move(0, 0, 0, 0, 2));
    }

    private void Take(Move move)
    {
        if (move.What < 24)
            Serve(move);
        else if (move.What < 60)
            Test(move);
        else if (move.What < 70)
            Look(move);
        else
            Happen(move);
    }

    private void Serve(Move move)
    {
        var day = move.When < 45 && _service is { } last ? last + BetweenServices[move.When % BetweenServices.Length] : Later(move.When % 40);
        Fact fact = move.How switch
        {
            < 60 => new Insemination(day),
            < 70 => new NaturalService(day),
            < 80 => new EmbryoTransfer(day, 6 + (move.How % 3)),
            < 92 => new Exposure(day, day + (move.When % 50)),
            _ => new Exposure(day, null),
        };
        _service = fact is EmbryoTransfer transfer ? transfer.DayZero : fact is Exposure { Until: { } until } ? until : day;
        Add(fact, move);
    }

    private void Test(Move move)
    {
        var day = Edge(move.When);
        _sample = day;
        var method = move.Late % 12 == 0 ? TestMethod.Milk : TestMethod.Blood;
        if (move.How % 5 < 2)
            Add(new Sample(day) { Specimen = method == TestMethod.Milk ? "milk" : "serum" }, move);
        if (move.How < 12)
            return; // A sample whose result never came.
        var outcome = Said(move.How);
        Instant? reported = move.Late % 3 == 0 ? null : RandomAnimals.Recorded(day + (move.Late % 7)) - Duration.FromHours(6);
        var result = new TestResult(day, method, outcome) { ReportedAt = reported };
        if (move.Late % 10 == 1)
            result = result with { Value = (move.How % 5) / 10.0, Unit = "S-N", Assay = move.How % 7 == 0 ? "another" : "herd-default" };
        Add(result, move);
    }

    private static Outcome Said(int how) => how switch
    {
        < 50 => Outcome.Open,
        < 74 => Outcome.Pregnant,
        < 91 => Outcome.Recheck,
        _ => Outcome.Invalid,
    };

    private void Look(Move move)
    {
        var day = Edge(move.When);
        var method = move.Late % 3 == 0 ? TestMethod.Palpation : TestMethod.Ultrasound;
        Add(new Examination(day, method, Said(move.How)) { CameAsResult = move.Late % 4 == 0 }, move);
    }

    private void Happen(Move move)
    {
        var day = Later(move.When % 30);
        switch (move.What)
        {
            case < 75:
                Calve(move.When < 70 && _service is { } served ? served + Gestation[move.When % Gestation.Length] : Later(move.When), move);
                break;
            case < 79:
                _loss = move.When < 50 && _service is { } s ? s + 58 + (move.When % 4) : day;
                Add(new Loss(_loss.Value, move.How < 40), move);
                break;
            case < 83:
                Add(new Oestrus(day), move);
                break;
            case < 88:
                var time = move.How % 2 == 0 ? new LocalTime(move.How % 24, 0) : (LocalTime?)null;
                Add(new Treatment(day, Agent.Pgf, move.How > 90) { Time = time }, move);
                break;
            case < 92:
                var near = _service is { } z ? z + 20 + (move.When % 20) : day;
                Add(new Treatment(near, move.How < 70 ? Agent.Gnrh : Agent.InsertIn, move.How % 9 == 0) { Time = new LocalTime(7, move.How % 60) }, move);
                break;
            case < 94:
                Add(new Arrival(day), move);
                break;
            case < 96:
                Add(new Departure(day), move);
                break;
            case < 98:
                Add(move.How < 60 ? new DoNotBreed(day) : new BreedAgain(day), move);
                break;
            default:
                Confirm(day, move);
                break;
        }
    }

    private void Confirm(Day day, Move move)
    {
        if (_calvingId is { } id)
            Add(move.How < 40 ? new Confirm(Day.Earliest, "herd", id) : new Confirm(day, "herd", id) { Dated = true }, move);
    }

    private void Calve(Day day, Move move)
    {
        _calving = day;
        _calvingId = $"{_facts.Count:00}";
        Add(new Calving(day), move);
    }

    // A day on the edge of a rule, counted from her service, calving, last sample or loss.
    private Day Edge(int when) => (when % 10) switch
    {
        < 4 when _service is { } s => s + AfterService[when % AfterService.Length],
        < 6 when _calving is { } c => c + AfterCalving[when % AfterCalving.Length],
        < 8 when _sample is { } t => t + AfterSample[when % AfterSample.Length],
        8 when _loss is { } l => l + AfterLoss[when % AfterLoss.Length],
        _ => Later(when % 35),
    };

    private Day Later(int days) => _now + days;

    private void Add(Fact fact, Move move) => Add(fact, move.Order, move.Late);

    // Recorded late on its day; one in five some days after.
    private void Add(Fact fact, int order, int late)
    {
        var day = Day.Max(fact.Day, RandomAnimals.Start);
        var recorded = RandomAnimals.Recorded(day + (late >= 80 ? late - 79 : 0));
        var number = _facts.Count;
        _facts.Add((fact with { Source = "herd", SourceId = $"{number:00}", Id = new FactId(number + 1), Recorded = recorded }, order));
        if (fact.Day > _now && fact is not Exposure)
            _now = fact.Day;
    }
}
