using ReproLink.Calendar.Figures;

namespace ReproLink.Web.Words;

/// <summary>Is the blood-test programme working? The questions in it, each answered in a sentence.</summary>
public static class FigureSentences
{
    /// <summary>Question, answer, and the line the answer comes from.</summary>
    public static IEnumerable<(string Question, string Answer, string Figure, string Line)> Of(FigureSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        yield return One(set, "Do cows become pregnant when served?", "conception-risk", "all", "of the services with an answer made the cow pregnant");
        yield return One(set, "Are cows that could be served in fact served?", "service-rate", "all", "of the cows to be served in a 21-day cycle were served");
        yield return One(set, "How fast does the herd become pregnant?", "pregnancy-rate", "all", "of the cows to be served became pregnant in a 21-day cycle");
        yield return Days(set, "How soon is an open cow known?", "to-known-open", "after her service, found by a test or examination");
        yield return Days(set, "How soon is she served again?", "to-next-service", "after that");
        yield return One(set, "Does the test give an answer?", "inconclusive", "all", "of the tests were inconclusive");
        yield return One(set, "When it says open, is it right?", "agreement", "negative-predictive", "of the cows it called open were found open by an examination within 14 days");
        yield return One(set, "Do pregnancies hold?", "loss", "early", "of the pregnancies found before day 60 and looked at again were no longer there by day 120");
        yield return Steps(set);
    }

    private static (string, string, string, string) One(FigureSet set, string question, string figure, string key, string words)
    {
        var line = set[figure].Line(key)!;
        return (question, line.Value is null ? $"No answer yet: {line.NoValue}{Why(line)}." : $"{SayFigure.Whole(line)} {words}.", figure, key);
    }

    private static (string, string, string, string) Days(FigureSet set, string question, string key, string words)
    {
        var line = set["service-to-open"].Line(key)!;
        return (question, line.Value is null ? $"No answer yet: {line.NoValue}{Why(line)}." : $"{SayFigure.Whole(line)} {words}.", "service-to-open", key);
    }

    private static (string, string, string, string) Steps(FigureSet set)
    {
        const string key = "all-missed";
        var (missed, notDone, assumed) = (set["steps"].Line(key)!, set["steps"].Line("all-not-done")!, set["steps"].Line("all-taken-as-done")!);
        var answer = missed.Value is null
            ? $"No answer yet: {missed.NoValue}."
            : $"{SayFigure.Whole(missed)} of the planned steps were missed, {SayFigure.OutOf(notDone)} reported as not done; {SayFigure.OutOf(assumed)} were not recorded and only taken as done.";
        return ("Are the steps done?", answer, "steps", key);
    }

    private static string Why(FigureLine line) => line.LeftOut.Count == 0 ? "" : $" (left out: {SayFigure.LeftOut(line)})";
}
