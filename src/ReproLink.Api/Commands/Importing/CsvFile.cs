using System.Text.Json;
using ReproLink.Api.Composition;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Commands.Importing;

/// <summary>A CSV file read as the service reads a CSV body, but of any length.</summary>
internal static class CsvFile
{
    public static async Task<IReadOnlyList<BatchItem>> Read(byte[] bytes, CsvShape shape)
    {
        var (rows, refusal) = CsvRows.Read(bytes, shape);
        if (rows is null)
        {
            throw new InvalidDataException(await Detail(refusal!));
        }

        return Items(rows);
    }

    public static IReadOnlyList<BatchItem> Items(CsvRows rows)
    {
        using var document = JsonDocument.Parse(rows.Json);
        return [.. document.RootElement.EnumerateArray().Select((element, i) => new BatchItem(i, element.Clone(), rows.Lines[i].Line, rows.Lines[i].Unreadable))];
    }

    /// <summary>What a refusal says, and of each field that is wrong: it is written for HTTP, here only its sentences are wanted.</summary>
    public static async Task<string> Detail(Problem refusal)
    {
        using var body = new MemoryStream();
        var context = new DefaultHttpContext();
        context.Response.Body = body;
        await refusal.WriteTo(context);
        var problem = JsonSerializer.Deserialize<ProblemBody>(body.ToArray(), JsonSetup.Options)!;
        return problem.Errors is { Count: > 1 } errors ? string.Join('\n', errors.Select(e => e.Detail)) : problem.Detail;
    }
}
