using System.Runtime.CompilerServices;

namespace ReproLink.Calendar.Tests.Architecture;

/// <summary>The sources this assembly was built from.</summary>
internal static class Repository
{
    /// <summary>The folder of the solution.</summary>
    public static string Root([CallerFilePath] string here = "")
    {
        var folder = new FileInfo(here).Directory;
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ReproLink.sln"))) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException($"no ReproLink.sln above {here}");
    }

    /// <summary>The C# files and pages below a folder, without what was built.</summary>
    public static IReadOnlyList<string> SourceFiles(string folder) =>
        [.. Directory.EnumerateFiles(Path.Combine(Root(), folder), "*.*", SearchOption.AllDirectories)
            .Where(f => Path.GetExtension(f) is ".cs" or ".cshtml" or ".razor")
            .Where(f => !f.Split(Path.DirectorySeparatorChar).Any(p => p is "obj" or "bin"))];
}
