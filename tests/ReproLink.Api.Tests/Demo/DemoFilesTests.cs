using System.Runtime.CompilerServices;
using ReproLink.TestSupport.DemoHerd;

namespace ReproLink.Api.Tests.Demo;

/// <summary>The committed files are what their generator makes; UPDATE_GOLDEN=1 rewrites them.</summary>
public sealed class DemoFilesTests
{
    public static TheoryData<string> Files => [.. DemoHerdFiles.Make().Keys];

    [Theory]
    [MemberData(nameof(Files))]
    public async Task Committed_file_is_what_the_generator_makes(string file)
    {
        var made = DemoHerdFiles.Make()[file];
        var committed = Path.Combine(Folder(), file);
        if (Environment.GetEnvironmentVariable("UPDATE_GOLDEN") == "1")
        {
            await File.WriteAllTextAsync(committed, made);
        }

        Assert.Equal(made, await File.ReadAllTextAsync(committed));
    }

    private static string Folder([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "demo-data"));
}
