using System.Globalization;
using Microsoft.Extensions.Primitives;
using ReproLink.Api.Problems;
using ReproLink.Web.WhatIf;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>The form of the test page as the API's query: shares are typed in per cent.</summary>
internal sealed class TestForms(IQueryCollection query)
{
    private static readonly string[] Prices = ["testPrice", "dayOpenPrice", "lostPregnancyPrice"];

    private readonly Dictionary<string, string> _problems = [];

    /// <summary>Whether something typed could not be understood.</summary>
    public bool HasProblems => _problems.Count > 0;

    /// <summary>The query the API would be asked with.</summary>
    public QueryCollection Asked()
    {
        var asked = new Dictionary<string, StringValues>();
        if (query["study"].ToString() is { Length: > 0 } study)
        {
            asked["study"] = study;
        }

        if (Number("sharePregnant", 0, 100, true) is { } share)
        {
            asked["sharePregnant"] = Text(share / 100);
        }

        foreach (var price in Prices)
        {
            if (Number(price, 0, 1_000_000, false) is { } given)
            {
                asked[price] = Text(given);
            }
        }

        return new QueryCollection(asked);
    }

    /// <summary>The form as typed, with what is wrong at each field.</summary>
    public TypedForm Typed(IReadOnlyList<FieldProblem> problems)
    {
        foreach (var problem in problems)
        {
            _problems.TryAdd(problem.Field, problem.Detail);
        }

        return new TypedForm(query.ToDictionary(q => q.Key, q => (IReadOnlyList<string>)[.. q.Value.Select(v => v ?? "")]), _problems);
    }

    private double? Number(string field, double least, double most, bool percent)
    {
        if (query[field].ToString().Trim() is not { Length: > 0 } text)
        {
            return null;
        }

        if (double.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most)
        {
            return number;
        }

        _problems.TryAdd(field, T(percent ? "form.number-per-cent" : "form.number", least, most));
        return null;
    }

    private static string Text(double number) => number.ToString(CultureInfo.InvariantCulture);
}
