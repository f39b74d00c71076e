namespace ReproLink.Calendar.Tests.Cases;

/// <summary>The runner is strict: a misspelt word never passes as a case that holds.</summary>
public sealed class CaseFileTests
{
    private static readonly string[] Good =
        ["case X.1 A name", "why because", "card parity 1", "2026-09-10 insemination", "asked 2026-10-08", "  answer eligible"];

    [Fact]
    public void A_good_case_holds() => Assert.Empty(Run(Good));

    [Fact]
    public void A_wrong_expectation_is_reported_with_what_came_out() =>
        Assert.Contains("but it is eligible", Assert.Single(Run([.. Good[..5], "  answer not-yet"])), StringComparison.Ordinal);

    [Theory]
    [InlineData(0, "cse X.1 A name")]
    [InlineData(0, "case X.1")]
    [InlineData(1, "wy because")]
    [InlineData(2, "card partiy 1")]
    [InlineData(2, "programme minDayPostService 30")]
    [InlineData(2, "programme minDaysPostService 30 days")]
    [InlineData(3, "2026-09-10 inseminated")]
    [InlineData(3, "2026-02-30 insemination")]
    [InlineData(3, "2026-09-10 insemination 08:00")]
    [InlineData(4, "asked on 2026-10-08")]
    [InlineData(4, "asked 2026-10-08 as of 2026-10-01")]
    [InlineData(5, "  answr eligible")]
    [InlineData(5, "  answer")]
    public void A_misspelt_line_is_refused(int at, string line)
    {
        var lines = Good.ToArray();
        lines[at] = line;
        Assert.Throws<FormatException>(() => Run(lines));
    }

    [Fact]
    public void A_case_that_expects_nothing_is_refused() => Assert.Throws<FormatException>(() => Run(Good[..5]));

    [Fact]
    public void A_case_that_does_not_say_why_is_refused() => Assert.Throws<FormatException>(() => Run([Good[0], .. Good[2..]]));

    private static List<string> Run(string[] lines) => [.. CaseFile.Read("test", lines).SelectMany(Answers.Failures)];
}
