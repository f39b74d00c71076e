using ReproLink.Calendar.Dates;

namespace ReproLink.Web.Work;

/// <summary>A row of counts: a week, a day or a pen.</summary>
/// <param name="Name">Its heading.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="Pen">Its pen, "" for none on record; absent = all.</param>
/// <param name="Of">The count of a column.</param>
public sealed record CountRow(string Name, Day From, Day To, string? Pen, Func<WorkColumn, WorkCount> Of);
