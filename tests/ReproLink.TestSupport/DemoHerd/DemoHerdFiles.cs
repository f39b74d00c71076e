namespace ReproLink.TestSupport.DemoHerd;

/// <summary>
/// The invented herd of <c>demo-data/</c>. Most animals are ordinary and come out of dice; every unusual one is written by
/// hand in <see cref="UnusualCows"/> with the reason for which she is there.
/// </summary>
public static class DemoHerdFiles
{
    /// <summary>File name to content, as committed.</summary>
    public static IReadOnlyDictionary<string, string> Make()
    {
        var book = new HerdBook();
        UnusualCows.Write(book);
        OrdinaryCows.Write(book, new Chance(20_261_005));
        Heifers.Write(book, new Chance(1_042));
        return new Dictionary<string, string> { ["herd.csv"] = book.Facts, ["results.csv"] = book.Results };
    }
}
