using System.Globalization;
using ReproLink.Api.Problems;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Reading;

/// <summary>Takes a query apart as <see cref="ObjectReader"/> does a body: every parameter that is wrong is named.</summary>
internal sealed class QueryReader(IQueryCollection query)
{
    private readonly IQueryCollection _query = query;
    private readonly List<string> _known = [];

    /// <summary>Reads the query of a request.</summary>
    public QueryReader(HttpContext context)
        : this(context.Request.Query)
    {
    }

    public FieldProblems Problems { get; } = new();

    public string? Text(string name)
    {
        if (One(name) is not { } text)
        {
            return null;
        }

        if (TextRule.Name.Accepts(text))
        {
            return text;
        }

        Refuse(name, text, TextRule.Name.Allowed);
        return null;
    }

    /// <summary>Several names in one text; whoever asked judges each.</summary>
    public string? Words(string name) => One(name);

    public Day? Day(string name)
    {
        if (One(name) is not { } text)
        {
            return null;
        }

        if (Dates.TryDay(text, out var day))
        {
            return day;
        }

        Refuse(name, text, Dates.AllowedDay);
        return null;
    }

    public NodaTime.Instant? Instant(string name)
    {
        if (One(name) is not { } text)
        {
            return null;
        }

        if (Dates.TryInstant(text, out var instant))
        {
            return instant;
        }

        Refuse(name, text, Dates.AllowedInstant);
        return null;
    }

    public int Integer(string name, int min, int max, int usual)
    {
        if (One(name) is not { } text)
        {
            return usual;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= min && number <= max)
        {
            return number;
        }

        Refuse(name, text, $"a whole number from {min} to {max}");
        return usual;
    }

    /// <summary>A number, fractions allowed; null when absent or refused.</summary>
    public double? Number(string name, double min, double max)
    {
        if (One(name) is not { } text)
        {
            return null;
        }

        if (double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number)
            && number >= min && number <= max)
        {
            return number;
        }

        Refuse(name, text, string.Create(CultureInfo.InvariantCulture, $"a number from {min} to {max}"));
        return null;
    }

    /// <summary>One of some words; null when absent or refused.</summary>
    public string? Word(string name, params string[] words)
    {
        var text = One(name);
        if (text is null || words.Contains(text))
        {
            return text;
        }

        Refuse(name, text, "one of " + string.Join(", ", words));
        return null;
    }

    public void Refuse(string name, string? value, string allowed, string? detail = null) =>
        Problems.Add(ProblemTypes.InvalidValue, name, value, allowed, detail ?? $"'{name}' is '{Short(value)}'; allowed: {allowed}.");

    /// <summary>Refuses by name what nobody asked for, and answers all that is wrong.</summary>
    public Problem? Done()
    {
        var allowed = _known.Count == 0 ? "no parameters" : "only " + string.Join(", ", _known.Distinct());
        foreach (var (name, value) in _query)
        {
            if (!_known.Contains(name))
            {
                Problems.Add(ProblemTypes.UnknownParameter, name, value.ToString(), allowed, $"The query parameter '{Short(name)}' is not known here; allowed: {allowed}.");
            }
        }

        return Problems.Any ? Problem.OfQuery(Problems.List) : null;
    }

    private static string Short(string? text) => text is null ? "missing" : text.Length <= 60 ? text : "a long text";

    private string? One(string name)
    {
        _known.Add(name);
        if (!_query.TryGetValue(name, out var values))
        {
            return null;
        }

        if (values.Count == 1)
        {
            return values[0] ?? "";
        }

        Refuse(name, values.ToString(), "one value", $"'{name}' is there more than once.");
        return null;
    }
}
