using ReproLink.Calendar.Figures;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <summary>Is the blood-test programme working? The questions in it, each answered in a sentence.</summary>
public static class FigureSentences
{
    /// <summary>Question, answer, and the line the answer comes from.</summary>
    public static IEnumerable<(string Question, string Answer, string Figure, string Line)> Of(FigureSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        yield return One(set, "conception-risk", "all");
        yield return One(set, "service-rate", "all");
        yield return One(set, "pregnancy-rate", "all");
        yield return One(set, "service-to-open", "to-known-open");
        yield return One(set, "service-to-open", "to-next-service");
        yield return One(set, "inconclusive", "all");
        yield return One(set, "agreement", "negative-predictive");
        yield return One(set, "loss", "early");
        yield return Steps(set);
    }

    private static (string, string, string, string) One(FigureSet set, string figure, string key)
    {
        var line = set[figure].Line(key)!;
        var of = $"{figure}.{key}";
        return (T("figures.ask." + of), line.Value is null ? NoAnswer(line) : T("figures.says." + of, SayFigure.Whole(line)), figure, key);
    }

    private static (string, string, string, string) Steps(FigureSet set)
    {
        const string key = "all-missed";
        var (missed, notDone, assumed) = (set["steps"].Line(key)!, set["steps"].Line("all-not-done")!, set["steps"].Line("all-taken-as-done")!);
        var answer = missed.Value is null ? NoAnswer(missed) : T("figures.says.steps", SayFigure.Whole(missed), SayFigure.OutOf(notDone), SayFigure.OutOf(assumed));
        return (T("figures.ask.steps"), answer, "steps", key);
    }

    private static string NoAnswer(FigureLine line) => line.LeftOut.Count == 0
        ? T("figures.no-answer", line.NoValue)
        : T("figures.no-answer-left-out", line.NoValue, SayFigure.LeftOut(line));
}
