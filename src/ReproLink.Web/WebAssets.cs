using System.Security.Cryptography;
using System.Text;

namespace ReproLink.Web;

/// <summary>Files the pages need, carried in the assembly: the program is one thing to copy.</summary>
public static class WebAssets
{
    /// <summary>The style sheet.</summary>
    public static readonly string Css = Read("site.css");

    /// <summary>Its address, another one whenever it changed: a browser may keep it for ever.</summary>
    public static readonly string CssAddress = $"/site.css?v={Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(Css)))[..12]}";

    private static string Read(string name)
    {
        using var stream = typeof(WebAssets).Assembly.GetManifestResourceStream(name)!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
