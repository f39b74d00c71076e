using System.Globalization;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;

namespace ReproLink.Api.Tests.Laws;

/// <summary>Random facts of a small herd as they would be posted, from a seed.</summary>
internal sealed class RandomHistories(int seed)
{
    private static readonly LocalDate Today = new(2026, 10, 5);
    private readonly Random _random = new(seed);
    private int _next;

    public List<JsonObject> Herd(int animals) => [.. Enumerable.Range(1, animals).SelectMany(i => Animal($"{100 + i}"))];

    private IEnumerable<JsonObject> Animal(string name)
    {
        var heifer = _random.Next(5) == 0;
        var calved = Today.PlusDays(-_random.Next(40, 260));
        yield return Fact(name, "animal", null, ("parity", heifer ? 0 : 2), ("pen", $"{_random.Next(1, 12)}"), ("breed", "Holstein"));
        if (!heifer)
        {
            yield return Fact(name, "calving", calved);
        }

        for (var i = _random.Next(0, 9); i > 0; i--)
        {
            var date = Today.PlusDays(-_random.Next(0, Period.DaysBetween(calved, Today)));
            yield return _random.Next(9) switch
            {
                0 => Fact(name, "exposure", date, ("until", Text(date.PlusDays(_random.Next(0, 1 + Period.DaysBetween(date, Today)))))),
                1 => Fact(name, "oestrus", date),
                2 => Fact(name, "treatment", date, ("agent", _random.Next(2) == 0 ? "gnrh" : "pgf"), ("time", "07:10")),
                3 => Fact(name, "examination", date, ("method", "ultrasound"), ("outcome", Outcome())),
                4 => Fact(name, "loss", date, ("examined", _random.Next(2) == 0)),
                5 => Fact(name, "sample", date),
                6 => Fact(name, "do-not-breed", date),
                _ => Fact(name, "insemination", date, ("time", _random.Next(2) == 0 ? "08:00" : "16:30")),
            };
        }
    }

    /// <summary>Results of random animals of <see cref="Herd"/>, reported by today.</summary>
    public List<JsonObject> Results(int animals, int count) => [.. Enumerable.Range(0, count).Select(_ => new JsonObject
    {
        ["sourceId"] = $"r-{_next++}",
        ["animal"] = $"{100 + _random.Next(1, animals + 1)}",
        ["sampled"] = Text(Today.PlusDays(-_random.Next(1, 120))),
        ["reported"] = "2026-10-05T08:00:00Z",
        ["method"] = "blood",
        ["outcome"] = Outcome(),
    })];

    public void Shuffle(List<JsonObject> facts)
    {
        for (var i = facts.Count - 1; i > 0; i--)
        {
            var j = _random.Next(i + 1);
            (facts[i], facts[j]) = (facts[j], facts[i]);
        }
    }

    private string Outcome() => _random.Next(4) switch { 0 => "pregnant", 1 => "recheck", 2 => "invalid", _ => "open" };

    private JsonObject Fact(string animal, string kind, LocalDate? date, params ReadOnlySpan<(string Name, object Value)> more)
    {
        var fact = new JsonObject { ["sourceId"] = string.Create(CultureInfo.InvariantCulture, $"f-{_next++}"), ["kind"] = kind, ["animal"] = animal };
        if (date is { } day)
        {
            fact["date"] = Text(day);
        }

        foreach (var (name, value) in more)
        {
            fact[name] = value is int number ? JsonValue.Create(number) : value is bool flag ? JsonValue.Create(flag) : JsonValue.Create((string)value);
        }

        return fact;
    }

    private static string Text(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
