using System.Globalization;
using ReproLink.TestSupport;

namespace ReproLink.Calendar.Tests.Figures.Statistics;

/// <summary>A table of check values kept beside the repository; absent there, the test is skipped and says so.</summary>
internal static class CheckTable
{
    public static string Path(string relative)
    {
        var path = CheckData.Find(relative);
        Skip.If(path is null, $"The check values {relative} are not beside this checkout.");
        return path!;
    }

    public static IReadOnlyList<CheckRow> Read(string relative)
    {
        var lines = File.ReadAllLines(Path(relative)).Where(l => l.Length > 0).ToList();
        var names = lines[0].Split(',');
        return [.. lines.Skip(1).Select(line => new CheckRow(names.Zip(line.Split(',')).ToDictionary(p => p.First, p => p.Second)))];
    }
}

/// <summary>One row, by column name. <c>NA</c>, <c>NaN</c> and <c>Inf</c> are meant: there is no value.</summary>
internal sealed record CheckRow(IReadOnlyDictionary<string, string> Cells)
{
    public string this[string column] => Cells[column];

    public int Int(string column) => int.Parse(Cells[column], CultureInfo.InvariantCulture);

    public double? Number(string column) =>
        Cells[column] is "NA" or "NaN" or "Inf" or "" ? null : double.Parse(Cells[column], CultureInfo.InvariantCulture);

    /// <summary>The value within 1e-9, or half a unit of the last printed digit where fewer are printed.</summary>
    public void Holds(string column, double? value)
    {
        var text = Cells[column];
        if (Number(column) is not { } expected)
        {
            Assert.True(value is null, $"{column}: {value}, where the table has none");
            return;
        }

        Assert.True(value is not null, $"{column}: none, where the table has {text}");
        var digits = text.Contains('e', StringComparison.Ordinal) || !text.Contains('.', StringComparison.Ordinal) ? 12 : text.Length - text.IndexOf('.', StringComparison.Ordinal) - 1;
        Assert.Equal(expected, value.Value, Math.Max(1e-9, 0.6 * Math.Pow(10, -digits)));
    }
}
