using System.Collections.Frozen;
using System.Security.Cryptography;

namespace ReproLink.Web;

/// <summary>A file the pages need.</summary>
/// <param name="Name">Its file name.</param>
/// <param name="MediaType">What it is.</param>
/// <param name="Content">Its bytes.</param>
public sealed record WebAsset(string Name, string MediaType, ReadOnlyMemory<byte> Content)
{
    /// <summary>Its address, another one whenever it changed: a browser may keep it for ever.</summary>
    public string Address { get; } = $"/assets/{Name}?v={Convert.ToHexString(SHA256.HashData(Content.Span))[..12]}";
}

/// <summary>Files of the folder Assets, carried in the assembly: the program is one thing to copy.</summary>
public static class WebAssets
{
    private static readonly FrozenDictionary<string, WebAsset> All = typeof(WebAssets).Assembly.GetManifestResourceNames()
        .Where(name => MediaTypeOf(name) is not null)
        .Select(Read)
        .ToFrozenDictionary(asset => asset.Name, StringComparer.Ordinal);

    /// <summary>The file of a name; null = there is none.</summary>
    public static WebAsset? Find(string name) => All.GetValueOrDefault(name);

    /// <summary>Where a file is found.</summary>
    /// <exception cref="KeyNotFoundException">There is no such file.</exception>
    public static string Address(string name) => All[name].Address;

    private static WebAsset Read(string name)
    {
        using var stream = typeof(WebAssets).Assembly.GetManifestResourceStream(name)!;
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return new WebAsset(name, MediaTypeOf(name)!, bytes.ToArray());
    }

    private static string? MediaTypeOf(string name) => Path.GetExtension(name) switch
    {
        ".css" => "text/css; charset=utf-8",
        ".js" => "text/javascript; charset=utf-8",
        ".svg" => "image/svg+xml",
        _ => null,
    };
}
