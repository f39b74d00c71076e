using System.Reflection;
using System.Text.RegularExpressions;

namespace ReproLink.Records.Tests;

/// <summary>Dapper drops in silence a column without a property, and leaves at its default a property without a column.</summary>
public sealed partial class RowTests
{
    public static TheoryData<Type> Rows => [.. typeof(Store).Assembly.GetTypes().Where(t => t.Name.EndsWith("Row", StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(Rows))]
    public async Task Every_column_has_a_property_and_every_property_a_column(Type row)
    {
        var select = row.GetField("Select", BindingFlags.Public | BindingFlags.Static)?.GetRawConstantValue() as string;
        Assert.True(select is not null, $"{row.Name} has no Select");
        await using var temp = await TempStore.WithHerd();
        using var raw = temp.Raw();
        using var command = raw.CreateCommand();
        command.CommandText = Parameter().Replace(select, "0");
        using var reader = command.ExecuteReader();
        var columns = Enumerable.Range(0, reader.FieldCount).Select(i => reader.GetName(i).Replace("_", "", StringComparison.Ordinal));
        var properties = row.GetProperties().Select(p => p.Name);
        Assert.Equal(properties.Order(StringComparer.OrdinalIgnoreCase), columns.Order(StringComparer.OrdinalIgnoreCase), StringComparer.OrdinalIgnoreCase);
    }

    [Fact]
    public void There_are_rows() => Assert.True(Rows.Count >= 9);

    [GeneratedRegex(@"@\w+")]
    private static partial Regex Parameter();
}
