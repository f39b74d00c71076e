using ReproLink.Api.Facts;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Commands.Importing;

/// <summary>One item of a file.</summary>
/// <param name="Herd">The herd it names; absent where the format names none.</param>
/// <param name="Item">The fact as the service would receive it.</param>
internal readonly record struct ImportItem(string? Herd, BatchItem Item);

/// <summary>The forms of files that can be imported.</summary>
internal static class ImportFile
{
    public const string Facts = "facts-csv";
    public const string DatedFacts = "dated-facts-csv";

    public const string HerdZip = "herd-zip";

    public static readonly string[] Formats = [Facts, DatedFacts, HerdZip];

    public static async Task<IReadOnlyList<ImportItem>> Read(string file, string format)
    {
        try
        {
            var bytes = await File.ReadAllBytesAsync(file);
            return format == DatedFacts
                ? DatedFactsFormat.Read(await CsvFile.Read(bytes, DatedFactsFormat.Shape))
                : [.. (await CsvFile.Read(bytes, FactCsv.Shape)).Select(item => new ImportItem(null, item))];
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            throw new CommandException($"{file}: {refused.Message}");
        }
    }
}
