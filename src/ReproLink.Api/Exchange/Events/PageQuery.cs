using System.Globalization;
using Microsoft.AspNetCore.WebUtilities;
using NodaTime;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Exchange.Events;

/// <summary>The standard's query parameters, and the page asked for. Parameters nobody knows are passed over, as it wants.</summary>
internal sealed class PageQuery
{
    public const int UsualSize = 100;
    public const int MostSize = 1000;

    private readonly HttpContext _context;
    private readonly FieldProblems _problems = new();

    /// <param name="context">The request.</param>
    /// <param name="ofAnimals">Whether the collection is of animals, so that one of them can be asked for.</param>
    public PageQuery(HttpContext context, bool ofAnimals = true)
    {
        _context = context;
        From = InstantOf("meta-modified-from");
        To = InstantOf("meta-modified-to");
        Animal = ofAnimals ? OneAnimal() : null;
        Cursor = One("cursor");
        Size = SizeOf("page-size");
    }

    /// <summary>Modified then or later.</summary>
    public Instant? From { get; }

    /// <summary>Modified then or earlier.</summary>
    public Instant? To { get; }

    /// <summary>Only this animal's.</summary>
    public (string Scheme, string Id)? Animal { get; }

    public string? Cursor { get; }

    public int Size { get; }

    /// <summary>Everything that is wrong with it.</summary>
    public Problem? Refusal => _problems.Any ? Problem.OfQuery(_problems.List) : null;

    public Problem WrongCursor()
    {
        Refuse("cursor", Cursor, "the cursor of a link in `view.next`");
        return Refusal!;
    }

    /// <summary>The address of the page after a cursor, of the collection at an address.</summary>
    public string Next(string address, string cursor)
    {
        var query = _context.Request.Query.Where(q => q.Key != "cursor").SelectMany(q => q.Value, (q, value) => KeyValuePair.Create(q.Key, value));
        return QueryHelpers.AddQueryString(address, query.Append(KeyValuePair.Create("cursor", (string?)cursor)));
    }

    private (string Scheme, string Id)? OneAnimal()
    {
        (var scheme, var id) = (One("animal-scheme"), One("animal-id"));
        if (scheme is null != id is null)
        {
            Refuse(scheme is null ? "animal-scheme" : "animal-id", null, "'animal-scheme' and 'animal-id' together");
        }

        return scheme is not null && id is not null ? (scheme, id) : null;
    }

    private Instant? InstantOf(string name)
    {
        if (One(name) is not { } text)
        {
            return null;
        }

        // A plus sign that was not encoded arrives as a blank.
        if (ExchangeTime.TryInstant(text.Replace(' ', '+'), out var instant))
        {
            return instant;
        }

        Refuse(name, text, ExchangeTime.Allowed);
        return null;
    }

    private int SizeOf(string name)
    {
        if (One(name) is not { } text)
        {
            return UsualSize;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var size) && size is >= 1 and <= MostSize)
        {
            return size;
        }

        Refuse(name, text, $"a whole number from 1 to {MostSize}");
        return UsualSize;
    }

    private string? One(string name)
    {
        var values = _context.Request.Query[name];
        if (values.Count > 1)
        {
            Refuse(name, values.ToString(), "one value");
        }

        return values.Count == 1 && values[0] is { Length: > 0 } text ? text : null;
    }

    private void Refuse(string name, string? value, string allowed) =>
        _problems.Add(ProblemTypes.InvalidValue, name, value, allowed, $"'{name}' is {(value is null ? "missing" : $"'{(value.Length <= 60 ? value : "a long text")}'")}; allowed: {allowed}.");
}
