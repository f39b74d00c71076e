using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.Statistics;

/// <summary>Proportions against R 4.2.2 and the examples of Newcombe 1998, Stat Med 17:857 and 17:873.</summary>
public sealed class ProportionTests
{
    [Fact]
    public void Out_of_none_there_is_no_value_and_no_interval()
    {
        var none = new Proportion(0, 0);
        Assert.Null(none.Value);
        Assert.Null(none.Wilson());
        Assert.Null(none.ClopperPearson());
        Assert.Null(none.Minus(new Proportion(1, 2)));
        Assert.Null(new Proportion(1, 2).NewcombeDifference(none));
    }

    [Theory]
    [InlineData(-1, 2)]
    [InlineData(3, 2)]
    [InlineData(0, -1)]
    public void More_than_all_or_fewer_than_none_is_refused(int count, int of) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Proportion(count, of));

    // Printed by Newcombe 1998 with four digits.
    [Theory]
    [InlineData(81, 263, 0.2553, 0.3662)]
    [InlineData(15, 148, 0.0624, 0.1605)]
    [InlineData(0, 20, 0, 0.1611)]
    [InlineData(1, 29, 0.0061, 0.1718)]
    public void Wilson_gives_the_printed_examples(int count, int of, double low, double high)
    {
        var limits = new Proportion(count, of).Wilson()!.Value;
        Assert.Equal(low, limits.Low, 0.00005);
        Assert.Equal(high, limits.High, 0.00005);
    }

    [Fact]
    public void At_none_and_at_all_Wilson_ends_exactly_at_0_and_1()
    {
        Assert.Equal(0.0, new Proportion(0, 7).Wilson()!.Value.Low);
        Assert.Equal(1.0, new Proportion(7, 7).Wilson()!.Value.High);
    }

    [SkippableFact]
    public void Every_row_of_the_table_of_one_proportion()
    {
        var rows = CheckTable.Read("statistics/proportion_ci.csv");
        Assert.Equal(10, rows.Count);
        foreach (var row in rows)
        {
            var proportion = new Proportion(row.Int("x"), row.Int("n"));
            row.Holds("p", proportion.Value);
            row.Holds("wilson_lo", proportion.Wilson()!.Value.Low);
            row.Holds("wilson_hi", proportion.Wilson()!.Value.High);
            row.Holds("cp_lo", proportion.ClopperPearson()!.Value.Low);
            row.Holds("cp_hi", proportion.ClopperPearson()!.Value.High);
        }
    }

    [SkippableFact]
    public void Every_row_of_the_table_of_two_proportions()
    {
        var rows = CheckTable.Read("statistics/two_proportions.csv");
        Assert.Equal(8, rows.Count);
        foreach (var row in rows)
        {
            var (one, two) = (new Proportion(row.Int("x1"), row.Int("n1")), new Proportion(row.Int("x2"), row.Int("n2")));
            row.Holds("diff", one.Minus(two));
            row.Holds("newcombe_hybrid_lo", one.NewcombeDifference(two)!.Value.Low);
            row.Holds("newcombe_hybrid_hi", one.NewcombeDifference(two)!.Value.High);
        }
    }

    [Fact]
    public void Large_herds_keep_their_digits()
    {
        // 50,000 of 100,000 (scipy 1.10.1: beta.ppf).
        var limits = new Proportion(50_000, 100_000).ClopperPearson()!.Value;
        Assert.Equal(0.496896, limits.Low, 1e-6);
        Assert.Equal(0.503104, limits.High, 1e-6);
    }
}
