using ReproLink.Calendar.Rounds;

namespace ReproLink.Api.Tests.Rounds;

public sealed class LabelTextTests
{
    [Fact]
    public void Fit_TextOfAnyLength_FitsAndIsNeverCutUnseen()
    {
        foreach (var letter in new[] { "a", "W", "1", "乳", "é", "👩‍🌾", "नी" })
        {
            for (var length = 1; length <= 100; length++)
            {
                var text = string.Concat(Enumerable.Repeat(letter, length));
                foreach (var keepEnd in new[] { false, true })
                {
                    var fitted = LabelText.Fit(text, 30, 4, 2, keepEnd);
                    Assert.True(LabelText.Width(fitted.Text) * fitted.Size <= 30.001, $"{fitted}");
                    Assert.InRange(fitted.Size, 2, 4);
                    Assert.Equal(fitted.Shortened, fitted.Text != text);
                    Assert.Equal(fitted.Shortened, fitted.Text.Contains('…', StringComparison.Ordinal));
                    // Only whole characters are left out.
                    Assert.Equal("", fitted.Text.Replace("…", "", StringComparison.Ordinal).Replace(letter, "", StringComparison.Ordinal));
                }
            }
        }
    }

    [Theory]
    [InlineData("R12-003", 12, 3)]
    [InlineData("r12-3", 12, 3)]
    [InlineData(" R 012 - 0003 ", 12, 3)]
    [InlineData("R1-2000", 1, 2000)]
    public void Read_NameOfATube_AsPeopleWriteIt(string text, int round, int number)
    {
        Assert.Equal((round, number), TubeNames.Read(text));
        Assert.Equal(TubeNames.Of(round, number), TubeNames.AsPrinted(text));
    }

    [Theory]
    [InlineData("")]
    [InlineData("R-1")]
    [InlineData("R0-1")]
    [InlineData("R1-0")]
    [InlineData("R12")]
    [InlineData("R1-2-3")]
    [InlineData("R99999999999-1")]
    [InlineData("X1-2")]
    public void Read_AnythingElse_IsNoName(string text)
    {
        Assert.Null(TubeNames.Read(text));
        Assert.Equal(text, TubeNames.AsPrinted(text));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 3)]
    [InlineData(20, 22)]
    [InlineData(21, 24)]
    [InlineData(200, 220)]
    public void Supplies_NeedlesAreDrawsAndATenthAtLeastTwo(int draws, int needles) => Assert.Equal(needles, Supplies.For(draws).Needles);
}
