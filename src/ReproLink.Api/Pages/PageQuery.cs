using System.Globalization;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Api.Pages;

/// <summary>What stands in the address of a page. What makes no sense there is left out: the page shows what it usually shows.</summary>
internal static class PageQuery
{
    /// <summary>How far from today a day of an address may lie.</summary>
    public const int FarthestDays = 3_660;

    /// <summary>The pen chosen; null = all.</summary>
    public static string? Pen(HttpContext context) => Text(context, "pen");

    /// <summary>A text; null = none.</summary>
    public static string? Text(HttpContext context, string name) => context.Request.Query[name].ToString() is { Length: > 0 } text ? text : null;

    /// <summary>A day; one that is none, or lies years away, is the usual one.</summary>
    public static Day Day(HttpContext context, string name, Day usual) =>
        PageRequest.DayOf(context, name, usual) is var day && Math.Abs(day - usual) <= FarthestDays ? day : usual;

    /// <summary>The pens of the herd, in natural order.</summary>
    public static IReadOnlyList<string> Pens(HerdView view) =>
        [.. view.Animals.Where(a => a is { Exists: true, Departure: null }).Select(a => a.Card?.Pen).OfType<string>().Distinct(StringComparer.Ordinal).Order(NaturalOrder.Instance)];

    /// <summary>The part of a long list that is shown, from 1.</summary>
    public static int Part(HttpContext context, int count, int size) =>
        int.TryParse(context.Request.Query["page"], NumberStyles.None, CultureInfo.InvariantCulture, out var page)
            ? Math.Clamp(page, 1, Math.Max(1, (count + size - 1) / size))
            : 1;
}
