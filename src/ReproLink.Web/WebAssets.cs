namespace ReproLink.Web;

/// <summary>Files the pages need, carried in the assembly: the program is one thing to copy.</summary>
public static class WebAssets
{
    /// <summary>The style sheet.</summary>
    public static readonly string Css = Read("site.css");

    private static string Read(string name)
    {
        using var stream = typeof(WebAssets).Assembly.GetManifestResourceStream(name)!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
