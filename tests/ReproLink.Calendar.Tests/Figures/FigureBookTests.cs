using System.Text;
using ReproLink.Calendar.Figures;
using ReproLink.Calendar.Tests.Architecture;

namespace ReproLink.Calendar.Tests.Figures;

/// <summary>The figure book is whole and printed in docs/figures.md.</summary>
public sealed class FigureBookTests
{
    [Fact]
    public void Every_figure_says_what_it_is_what_it_is_mistaken_for_and_where_it_comes_from()
    {
        Assert.Equal(FigureBook.All.Count, FigureBook.All.Select(d => d.Id).Distinct().Count());
        Assert.All(FigureBook.All, d => Assert.DoesNotContain("", new[] { d.Name, d.Rule, d.Sentence, d.Trap, d.Source }));
        Assert.Null(FigureBook.Find("none"));
    }

    [Fact]
    public void Every_reason_has_its_words() =>
        Assert.All(Enum.GetValues<LeftOutReason>(), r => Assert.False(string.IsNullOrEmpty(LeftOutWords.Of(r)) || string.IsNullOrEmpty(LeftOutWords.Sentence(r))));

    [Fact]
    public void The_printed_figures_are_current()
    {
        var path = Path.Combine(Repository.Root(), "docs", "figures.md");
        var printed = Print();
        if (Environment.GetEnvironmentVariable("UPDATE_GOLDEN") == "1") File.WriteAllText(path, printed);
        Assert.True(File.Exists(path) && File.ReadAllText(path) == printed, "docs/figures.md is not what the figure book prints: run this test with UPDATE_GOLDEN=1");
    }

    private static string Print()
    {
        var text = new StringBuilder("""
            # Figures

            Printed from the figure book in `src/ReproLink.Calendar/Figures`; a test keeps it current. Asked at
            `GET /locations/{scheme}/{id}/figures?from&to`, the animals behind each at `…/figures/{figure}/animals`; as a page under *Figures*.

            - Each value comes with numerator, denominator, 95 % interval, method, and what was left out and why. Out of none there is no value.
            - **Unknown is never counted as open.** A service without an answer, in doubt, or whose cow left first is left out.
            - A result decides what it decides by the rules of the calendar ([rules.md](rules.md)): too early, spoiled or contradicted it decides nothing here either.
            - Inseminations at most 3 days apart are one service, dated by the last; an embryo transfer is dated by the recipient's oestrus.
            - A calving 262-302 days after a service says it was that one, whatever was found before: a wrong open is mended by it.
            - Days in milk count the calving day as day 0. The waiting period is the programme's for first service, else 60 days (common practice), or as asked.
            - Shares have Wilson's score interval, means Student's, survival log-log limits. Survival and cumulative incidence agree with R survival 3.5.3,
              proportions with the examples of Newcombe 1998, to nine digits. The median of a flat stretch at exactly one half is its middle.
            - Figures by rule A and by rule B differ on the same herd (36 % and 20 % on an invented one): never compare them.

            Left out, in words:


            """);
        foreach (var reason in Enum.GetValues<LeftOutReason>())
        {
            text.Append("- `").Append(LeftOutWords.Of(reason)).Append("`: ").Append(LeftOutWords.Sentence(reason)).Append('\n');
        }

        foreach (var section in FigureBook.All.GroupBy(d => d.Section))
        {
            text.Append("\n## ").Append(section.Key).Append('\n');
            foreach (var figure in section)
            {
                text.Append("\n### ").Append(figure.Name).Append(" (`").Append(figure.Id).Append("`, rule ").Append(figure.Rule).Append(")\n\n")
                    .Append(figure.Sentence).Append("\n\n- Trap: ").Append(figure.Trap).Append("\n- Source: ").Append(figure.Source).Append('\n');
            }
        }

        return text.ToString();
    }
}
