using System.Globalization;
using System.Text.Json.Nodes;
using ReproLink.Api.Problems;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Web.WhatIf;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>The page's form as the body of the API: one reader judges both, and what it finds wrong goes back to the field.</summary>
internal sealed class WhatIfForms(IQueryCollection query)
{
    // Field of the page, and where it stands in a programme's changes.
    private static readonly (string Field, string Path)[] Changes =
    [
        ("laboratory", "laboratory/kind"), ("transit", "laboratory/transitDays"), ("turnaround", "laboratory/turnaroundWorkingDays"),
        ("sampling", "week/samplingDays"), ("start", "resynchronisation/start"), ("startDay", "resynchronisation/startDay"), ("protocol", "resynchronisation/protocol"),
    ];

    private static readonly string[] Shares = ["pregnantFirst", "pregnantLater", "returns", "loss"];

    private static readonly string[] Prices = ["dayOpen", "service", "testPrice", "confirmation", "gnrh", "pgf", "insert", "lostPregnancy"];

    private readonly Dictionary<string, string> _problems = [];
    private readonly List<int> _columns = [];

    /// <summary>The form as typed, with what is wrong at each field.</summary>
    public TypedForm Typed(IReadOnlyList<FieldProblem> problems)
    {
        foreach (var problem in problems)
        {
            var field = FieldOf(problem.Field);
            // Nothing in the sentence says anything of JSON.
            _problems.TryAdd(field, Sentence(problem));
        }

        return new TypedForm(query.ToDictionary(q => q.Key, q => (IReadOnlyList<string>)[.. q.Value.Select(v => v ?? "")]), _problems);
    }

    /// <summary>The question as a body of the API.</summary>
    public JsonObject Body()
    {
        var programmes = new JsonArray { new JsonObject { ["name"] = Text("name1") ?? T("whatIf.as-now") } };
        _columns.Add(1);
        for (var column = 2; column <= WhatIfComparison.Most; column++)
        {
            if (Text($"name{column}") is { } name)
            {
                programmes.Add(Programme(column, name));
                _columns.Add(column);
            }
        }

        var rates = new JsonObject();
        Put(rates, "firstServiceDays", Number("firstServiceDays", 20, 250));
        foreach (var share in Shares)
        {
            Put(rates, share, Percent(share, share.StartsWith("pregnant", StringComparison.Ordinal) ? 1 : 0, share == "loss" ? 90 : 100));
        }

        var test = new JsonObject();
        Put(test, "study", Text("study"));
        Put(test, "inconclusive", Percent("inconclusive", 0, 90));
        var body = new JsonObject { ["programmes"] = programmes, ["rates"] = rates, ["test"] = test };
        if (Priced() is { } prices)
        {
            body["prices"] = prices;
        }

        return body;
    }

    private JsonObject Programme(int column, string name)
    {
        var changes = new JsonObject();
        foreach (var (field, path) in Changes)
        {
            JsonNode? value = field switch
            {
                "sampling" => Sampling(column),
                "transit" or "turnaround" => Whole($"{field}{column}", 0, 30),
                "startDay" => Whole($"startDay{column}", 1, 100),
                _ => Text($"{field}{column}"),
            };
            if (value is not null)
            {
                var parts = path.Split('/');
                changes[parts[0]] ??= new JsonObject();
                changes[parts[0]]![parts[1]] = value;
            }
        }

        var programme = new JsonObject { ["name"] = name, ["changes"] = changes };
        if (Percent($"returns{column}", 0, 100) is { } returns)
        {
            programme["rates"] = new JsonObject { ["returns"] = returns };
        }

        var test = new JsonObject();
        Put(test, "study", Text($"study{column}"));
        Put(test, "secondSample", query.ContainsKey($"second{column}") ? JsonValue.Create(true) : null);
        programme["test"] = test;
        return programme;
    }

    // A browser sends no box that is not ticked; the list of starts beside them is always sent.
    private JsonArray? Sampling(int column) => query.ContainsKey($"start{column}") || query.ContainsKey($"sampling{column}")
        ? [.. query[$"sampling{column}"].Select(day => JsonValue.Create(day))]
        : null;

    private JsonObject? Priced()
    {
        var prices = new JsonObject();
        Put(prices, "lastServiceDay", Whole("lastServiceDay", 30, 1000));
        foreach (var price in Prices)
        {
            Put(prices, price == "testPrice" ? "test" : price, Number(price, 0, 1_000_000));
        }

        if (prices.Count == 0)
        {
            return null;
        }

        Put(prices, "currency", Text("currency"));
        if (!prices.ContainsKey("lastServiceDay"))
        {
            _problems.TryAdd("lastServiceDay", T("whatIf.write-the-last-day-in-milk"));
        }

        return prices;
    }

    private string? Text(string field) => query[field].ToString().Trim() is { Length: > 0 } text ? text : null;

    private double? Number(string field, double least, double most, bool percent = false)
    {
        if (Text(field) is not { } text)
        {
            return null;
        }

        if (double.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number)
            && number >= least && number <= most)
        {
            return number;
        }

        _problems.TryAdd(field, T(percent ? "form.number-per-cent" : "form.number", least, most));
        return null;
    }

    private double? Percent(string field, double least, double most) => Number(field, least, most, true) / 100;

    private int? Whole(string field, int least, int most)
    {
        if (Text(field) is not { } text)
        {
            return null;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most)
        {
            return number;
        }

        _problems.TryAdd(field, T("form.whole-number", least, most));
        return null;
    }

    /// <summary>Whether something typed could not be understood.</summary>
    public bool HasProblems => _problems.Count > 0;

    private string FieldOf(string path)
    {
        var parts = path.Split('/');
        if (parts is ["programmes", var index, .. var rest] && int.TryParse(index, CultureInfo.InvariantCulture, out var i) && i < _columns.Count)
        {
            var within = string.Join('/', rest.SkipWhile(p => p == "changes"));
            var field = Changes.FirstOrDefault(c => c.Path == within).Field ?? (rest is [_, .., var last] ? last : within);
            return field is "" or "changes" ? $"protocol{_columns[i]}" : $"{field}{_columns[i]}";
        }

        return parts is ["rates" or "test", var name] ? name : parts is ["prices", var price] ? (price == "test" ? "testPrice" : price) : "";
    }

    private static string Sentence(FieldProblem problem) => problem switch
    {
        { Field: var field } when field.StartsWith("rates/", StringComparison.Ordinal) => T("whatIf.the-herd-has-no-number-of-its"),
        { Field: var field } when field.EndsWith("/samplingDays", StringComparison.Ordinal) => T("whatIf.choose-at-least-one-day"),
        { Field: var field } when field.EndsWith("/name", StringComparison.Ordinal) => T("whatIf.give-each-programme-a-name-of-its"),
        _ => problem.Detail,
    };

    private static void Put(JsonObject into, string name, JsonNode? value)
    {
        if (value is not null)
        {
            into[name] = value;
        }
    }
}
