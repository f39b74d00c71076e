using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Tests.RealHerds;

/// <summary>
/// Dated facts of 12 real dairy herds (DairyHerdData, A. Madouasse, 2024, MIT licence): services, calvings, births, arrivals
/// and departures, no pregnancy tests.
/// </summary>
internal static class RealHerds
{
    public const string File = "real-herds/facts.csv";

    /// <summary>All that was recorded is known: the facts are looked back on.</summary>
    public static readonly Instant KnownAt = Instant.FromUtc(2026, 1, 1, 0, 0);

    public static readonly HerdRules Rules = new(DateTimeZoneProviders.Tzdb["Europe/Paris"], []);

    public static IReadOnlyDictionary<string, IReadOnlyList<AnimalHistory>> Load(string path)
    {
        var rows = System.IO.File.ReadLines(path).Skip(1).Select((line, i) => (Cells: line.Split(','), Id: i + 1)).ToList();
        return rows
            .GroupBy(r => r.Cells[0])
            .ToDictionary(herd => herd.Key, herd => (IReadOnlyList<AnimalHistory>)[.. herd
                .GroupBy(r => r.Cells[1])
                .Select(animal => AnimalHistory.Of(animal.Key, animal.SelectMany(r => Facts(r.Cells, r.Id))))]);
    }

    private static IEnumerable<Fact> Facts(string[] cells, int id)
    {
        var day = Day.From(LocalDatePattern.Iso.Parse(cells[2]).Value);
        Fact[] facts = cells[3] switch
        {
            "birth" => [new AnimalCard(day) { Dated = true, Born = day }],
            "insemination" => [new Insemination(day) { Sire = cells[4] }],
            "calving" => [new Calving(day), new AnimalCard(day) { Dated = true, Parity = Parity(cells[4]) }],
            "arrival" => [new Arrival(day)],
            "departure" => [new Departure(day) { Reason = cells[4] }],
            _ => throw new InvalidDataException($"unknown fact {cells[3]} in line {id + 1}"),
        };
        return facts.Select((fact, i) => fact with
        {
            Id = new FactId((id * 4L) + i),
            Source = "real",
            SourceId = string.Create(CultureInfo.InvariantCulture, $"{id}-{i}"),
            Recorded = Instant.FromUtc(2024, 1, 1, 0, 0),
        });
    }

    private static int? Parity(string detail) =>
        detail.StartsWith("parity-", StringComparison.Ordinal) ? int.Parse(detail.AsSpan(7), CultureInfo.InvariantCulture) : null;

    public static AnimalState[] Fold(IReadOnlyList<AnimalHistory> herd, Day asOf) =>
        [.. herd.Select(h => HistoryFold.Fold(h, Rules, asOf, KnownAt))];
}
