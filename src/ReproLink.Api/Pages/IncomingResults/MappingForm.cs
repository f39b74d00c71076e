using System.Globalization;
using ReproLink.Api.Intake;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Reading;
using ReproLink.Web.Forms;
using ReproLink.Web.Pages;

namespace ReproLink.Api.Pages.IncomingResults;

/// <summary>A mapping as the fields of its form, and back.</summary>
internal static class MappingForm
{
    private static readonly string[] Fixed = ["method", "specimen", "unit", "assay"];

    /// <summary>What plain headings and dates that can be read in one way only say of themselves.</summary>
    public static Dictionary<string, string> Guessed(ForeignTable table)
    {
        var values = new Dictionary<string, string>(StringComparer.Ordinal) { ["delimiter"] = table.Delimiter };
        foreach (var property in MappingPage.Properties)
        {
            if (table.Guess(property) is { } heading)
            {
                values[$"col-{property}"] = heading;
            }
        }

        if (DateGuess.Of(table.Values(values.GetValueOrDefault("col-sampled"))).Way is { } way)
        {
            values["dates"] = way;
        }

        values["decimal"] = table.Values(values.GetValueOrDefault("col-value")).Any(v => v.Contains(',', StringComparison.Ordinal)) ? "," : ".";
        return values;
    }

    /// <summary>A saved mapping.</summary>
    public static Dictionary<string, string> Of(MappingInput input)
    {
        var values = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["delimiter"] = input.Delimiter ?? ",",
            ["decimal"] = input.Decimal ?? ".",
            ["dates"] = input.Dates?[0] ?? "yyyy-MM-dd",
        };
        foreach (var (property, heading) in input.Columns)
        {
            values[$"col-{property}"] = heading;
        }

        foreach (var (property, text) in input.Fixed ?? new Dictionary<string, string>())
        {
            values[$"fix-{property}"] = text;
        }

        foreach (var (word, meaning) in input.Outcomes ?? new Dictionary<string, string>())
        {
            values[$"meaning of {SenderWriting.Folded(word)}"] = meaning;
        }

        return values;
    }

    /// <summary>The form with its words under the numbers they have now: another column may have been chosen for them.</summary>
    public static FormState Renumbered(FormState form, IReadOnlyList<string> words)
    {
        var values = new Dictionary<string, string>(form.Values, StringComparer.Ordinal);
        for (var i = 0; form.Value($"word-{i}") is { } word; i++)
        {
            values.Remove($"means-{i}");
            if (form.Value($"means-{i}") is { } meaning)
            {
                values[$"meaning of {SenderWriting.Folded(word)}"] = meaning;
            }
        }

        for (var i = 0; i < words.Count; i++)
        {
            if (values.TryGetValue($"meaning of {SenderWriting.Folded(words[i])}", out var meaning))
            {
                values[string.Create(CultureInfo.InvariantCulture, $"means-{i}")] = meaning;
            }
        }

        return form with { Values = values };
    }

    /// <summary>The mapping as the API would have got it.</summary>
    public static ObjectBody Body(PageForm form) => PageForm.Object(json =>
    {
        json.WriteStartObject("columns");
        var columns = MappingPage.Properties.Where(p => form.Text($"col-{p}") is not null).ToList();
        columns.ForEach(p => json.WriteString(p, form.Text($"col-{p}")));
        json.WriteEndObject();
        json.WriteStartObject("fixed");
        foreach (var property in Fixed.Where(p => !columns.Contains(p) && form.Text($"fix-{p}") is not null))
        {
            json.WriteString(property, form.Text($"fix-{property}"));
        }

        json.WriteEndObject();
        json.WriteStartObject("outcomes");
        for (var i = 0; form.Text($"word-{i}") is { } word; i++)
        {
            if (form.Text($"means-{i}") is { } meaning)
            {
                json.WriteString(word, meaning);
            }
        }

        json.WriteEndObject();
        if ((form.Text("dates-other") ?? form.Text("dates")) is { } dates)
        {
            json.WriteStartArray("dates");
            json.WriteStringValue(dates);
            json.WriteEndArray();
        }

        json.WriteString("delimiter", form.Text("delimiter") ?? ",");
        json.WriteString("decimal", form.Text("decimal") ?? ".");
    });
}
