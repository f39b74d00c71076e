namespace ReproLink.TestSupport;

/// <summary>Finds reference data kept beside the repository; a checkout without them skips those tests.</summary>
public static class CheckData
{
    /// <summary>Full path of a file under <c>shared/check-data</c> of the nearest folder upward, or null.</summary>
    public static string? Find(string relative)
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            var path = Path.Combine(folder.FullName, "shared", "check-data", relative);
            if (File.Exists(path)) return path;
        }

        return null;
    }
}
