using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Commands.Importing;

/// <summary>A sender's herd file of any length, read by a mapping that stands in a file of its own.</summary>
internal static class MappedImport
{
    /// <summary>The mapping of a file, in the form of PUT /fact-mappings/{sender}.</summary>
    public static async Task<FactMappingSheet> Mapping(string file, string sender)
    {
        var (document, refusal) = JsonText.Parse(await Bytes(file));
        using var _ = document;
        if (document is null)
        {
            throw new CommandException($"{file}: {await CsvFile.Detail(refusal!)}");
        }

        var problems = new FieldProblems();
        var reader = new ObjectReader(document.RootElement, problems);
        var input = reader.IsObject ? FactMappingReader.Read(reader) : null;
        return problems.Any
            ? throw new CommandException(string.Join('\n', problems.List.Select(p => $"{file}: {p.Field}: {p.Detail}")))
            : new FactMappingSheet(sender, input!);
    }

    public static async Task<(IReadOnlyList<ImportItem> Items, MappedFacts Mapped)> Read(string file, FactMappingSheet sheet)
    {
        var mapped = new MappedFacts(sheet);
        var (rows, refusal) = mapped.Read(await Bytes(file));
        return rows is null
            ? throw new CommandException($"{file}: {await CsvFile.Detail(refusal!)}")
            : ([.. CsvFile.Items(rows).Select(item => new ImportItem(null, item))], mapped);
    }

    private static async Task<byte[]> Bytes(string file)
    {
        try
        {
            return await File.ReadAllBytesAsync(file);
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new CommandException($"{file}: {refused.Message}");
        }
    }
}
