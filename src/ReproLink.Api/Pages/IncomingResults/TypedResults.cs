using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Reading;
using ReproLink.Api.ReceivedResults;

namespace ReproLink.Api.Pages.IncomingResults;

/// <summary>One result typed into the page, as the list of one it would have been.</summary>
internal static class TypedResults
{
    private static readonly string[] Names = ["animal", "tube", "sampled", "method", "outcome", "value", "unit", "assay"];

    public static string Json(PageForm form)
    {
        using var body = PageForm.Object(json =>
        {
            json.WriteString("sourceId", form.Text("typed"));
            foreach (var name in Names)
            {
                if (form.Text(name) is not { } text)
                {
                    continue;
                }

                json.WritePropertyName(name);
                if (name == "value" && CsvCells.IsJsonNumber(text.Replace(',', '.')))
                {
                    json.WriteRawValue(text.Replace(',', '.'));
                }
                else
                {
                    json.WriteStringValue(text);
                }
            }
        });
        return $"[{System.Text.Encoding.UTF8.GetString(body.Bytes)}]";
    }

    public static Dictionary<string, string> Fields(PageForm form) =>
        Names.Append("typed").Where(n => form.Text(n) is not null).ToDictionary(n => n, n => form.Text(n)!, StringComparer.Ordinal);

    /// <summary>What is wrong with the one, field by field.</summary>
    public static IReadOnlyDictionary<string, string> Problems(TestResultIntake intake) => PageProblems.Fields(intake.Refused(0));
}
