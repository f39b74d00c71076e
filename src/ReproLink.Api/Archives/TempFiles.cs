namespace ReproLink.Api.Archives;

/// <summary>Files that go away with their stream. Readable by the service alone: they hold a herd's records.</summary>
internal static class TempFiles
{
    public static FileStream New()
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.ReadWrite,
            Share = FileShare.None,
            BufferSize = 64 * 1024,
            Options = FileOptions.DeleteOnClose,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        return new FileStream(Path.Combine(Path.GetTempPath(), $"reprolink-{Guid.NewGuid():N}.zip"), options);
    }
}
