using System.Globalization;
using System.Text;

namespace ReproLink.TestSupport.DemoHerd;

/// <summary>Collects the lines of the two files. Days are counted from today: -30 is thirty days ago.</summary>
internal sealed class HerdBook
{
    private static readonly string[] FactColumns =
    [
        "sourceId", "kind", "animal", "offset", "weekdays", "time", "bornOffset", "breed", "parity", "pen", "identifiers", "sire", "sireBreed",
        "technician", "embryoAgeDays", "embryoBreed", "untilOffset", "examined", "agent", "method", "outcome", "corpusLuteum", "examiner",
        "specimen", "tube", "reason",
    ];

    private static readonly string[] ResultColumns =
    [
        "sourceId", "animal", "tube", "offset", "weekdays", "reportedAfter", "method", "specimen", "outcome", "value", "unit", "assay",
    ];

    private readonly List<string> _facts = [string.Join(',', FactColumns)];
    private readonly List<string> _results = [string.Join(',', ResultColumns)];
    private readonly Dictionary<string, int> _numbers = [];

    public string Facts => Text(_facts);

    public string Results => Text(_results);

    /// <summary>Her card. Parity is today's: calvings so far.</summary>
    public void Card(string animal, int? parity, string pen, int bornOffset, string breed = "Holstein") => Add(_facts, FactColumns, "animal", animal,
        ("bornOffset", Number(bornOffset)), ("breed", breed), ("parity", parity is { } known ? Number(known) : ""), ("pen", pen));

    public void Fact(string kind, string animal, int offset, params (string Column, string Value)[] more) =>
        Add(_facts, FactColumns, kind, animal, [("offset", Number(offset)), .. more]);

    /// <summary>Blood drawn and not yet answered, on the last sampling day at or before the offset.</summary>
    public void Sample(string animal, int offset, bool onSamplingDay = true) => Fact("sample", animal, offset,
        ("weekdays", onSamplingDay ? SamplingDays : ""), ("specimen", "serum"));

    /// <summary>A laboratory's result of blood drawn on the last sampling day at or before the offset, reported the day after.</summary>
    public void Test(string animal, int offset, string outcome, bool onSamplingDay = true, params (string Column, string Value)[] more)
    {
        Add(_results, ResultColumns, null, animal,
        [
            ("offset", Number(offset)), ("weekdays", onSamplingDay ? SamplingDays : ""), ("reportedAfter", "1"), ("method", "blood"),
            ("specimen", "serum"), ("outcome", outcome), .. more,
        ]);
    }

    public void Examined(string animal, int offset, string outcome, string method = "ultrasound") => Fact("examination", animal, offset,
        ("method", method), ("outcome", outcome), ("examiner", "Dr Hale"));

    // Weekdays of the demo's programme; the loader takes the last of them at or before the offset.
    private const string SamplingDays = "monday thursday";

    private void Add(List<string> lines, string[] columns, string? kind, string animal, params (string Column, string Value)[] cells)
    {
        var number = _numbers[animal] = _numbers.GetValueOrDefault(animal) + 1;
        var row = new string[columns.Length];
        Array.Fill(row, "");
        Set(row, columns, "sourceId", $"{animal}-{number:00}");
        Set(row, columns, "animal", animal);
        if (kind is not null)
        {
            Set(row, columns, "kind", kind);
        }

        foreach (var (column, value) in cells)
        {
            Set(row, columns, column, value);
        }

        lines.Add(string.Join(',', row));
    }

    private static void Set(string[] row, string[] columns, string column, string value)
    {
        var at = Array.IndexOf(columns, column);
        if (at < 0)
        {
            throw new ArgumentException($"There is no column '{column}'.", nameof(column));
        }

        row[at] = value.Contains(',', StringComparison.Ordinal) ? throw new ArgumentException("No commas in the demo herd.", nameof(value)) : value;
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Text(List<string> lines) => new StringBuilder().AppendJoin('\n', lines).Append('\n').ToString();
}
