namespace ReproLink.Api.Reading;

/// <summary>
/// Keeps a spreadsheet from running a cell as a formula. A cell that begins with = + - @ or a tab or line sign gets an apostrophe
/// before it, and one that begins with apostrophes before such a sign gets one more; reading CSV takes one away again. So every
/// text comes back as it was.
/// </summary>
internal static class CellGuard
{
    /// <summary>A cell as it is written for people.</summary>
    public static string? Apply(string? cell) => cell is not null && NeedsIt(cell) ? "'" + cell : cell;

    /// <summary>A cell as it was meant.</summary>
    public static string Undo(string cell) => cell.Length > 1 && cell[0] == '\'' && NeedsIt(cell) ? cell[1..] : cell;

    private static bool NeedsIt(string cell)
    {
        var first = 0;
        while (first < cell.Length && cell[first] == '\'')
        {
            first++;
        }

        return first < cell.Length && cell[first] is '=' or '+' or '-' or '@' or '\t' or '\r' or '\n';
    }
}
