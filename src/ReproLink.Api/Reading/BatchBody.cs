using System.Text.Json;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Reading;

/// <summary>A batch: a JSON array, or CSV with the same names as its header.</summary>
internal sealed class BatchBody : IDisposable
{
    public const int MaxItems = 10_000;

    private readonly JsonDocument _document;

    private BatchBody(JsonDocument document, IReadOnlyList<BatchItem> items, byte[] bytes, string mediaType = RequestBody.Json)
    {
        MediaType = mediaType;
        _document = document;
        Items = items;
        Bytes = bytes;
    }

    public IReadOnlyList<BatchItem> Items { get; }

    /// <summary>The form it came in.</summary>
    public string MediaType { get; }

    /// <summary>The header line of a CSV.</summary>
    public string? Header { get; private init; }

    /// <summary>The body as received.</summary>
    public byte[] Bytes { get; }

    /// <summary>Reads a batch; with <paramref name="csv"/> also as CSV.</summary>
    public static Task<(BatchBody? Batch, Problem? Refusal)> Read(HttpContext context, CsvShape? csv = null) =>
        Read(context, csv is null ? null : bytes => CsvRows.Read(bytes, csv));

    /// <summary>Reads a batch; CSV as <paramref name="csv"/> takes it apart.</summary>
    public static async Task<(BatchBody? Batch, Problem? Refusal)> Read(HttpContext context, Func<byte[], (CsvRows? Rows, Problem? Refusal)>? csv)
    {
        string[] allowed = csv is null ? [RequestBody.Json] : [RequestBody.Json, RequestBody.Csv];
        var (mediaType, bytes, refusal) = await RequestBody.Read(context, allowed);
        if (refusal is not null)
        {
            return (null, refusal);
        }

        return Of(bytes, mediaType, csv);
    }

    /// <summary>A batch that came another way than as a body.</summary>
    public static (BatchBody? Batch, Problem? Refusal) Of(byte[] bytes, string mediaType, Func<byte[], (CsvRows? Rows, Problem? Refusal)>? csv) =>
        mediaType == RequestBody.Csv ? OfCsv(bytes, csv!) : OfJson(bytes);

    /// <summary>Reads a batch of which CSV comes in a sender's own letters, as <paramref name="csv"/> takes them.</summary>
    public static async Task<(BatchBody? Batch, Problem? Refusal)> ReadFile(HttpContext context, Func<byte[], (CsvRows? Rows, Problem? Refusal)> csv)
    {
        var (mediaType, bytes, refusal) = await RequestBody.Read(context, RequestBody.Letters.OfTheFile, RequestBody.Json, RequestBody.Csv);
        if (refusal is not null)
        {
            return (null, refusal);
        }

        return Of(bytes, mediaType, csv);
    }

    public void Dispose() => _document.Dispose();

    private static (BatchBody?, Problem?) OfJson(byte[] bytes)
    {
        var (document, refusal) = JsonText.Parse(bytes);
        if (document is null)
        {
            return (null, refusal);
        }

        var root = document.RootElement;
        if (root.ValueKind != JsonValueKind.Array || root.GetArrayLength() > MaxItems)
        {
            var sent = root.ValueKind == JsonValueKind.Array ? $"an array of {root.GetArrayLength()} items" : "no array";
            document.Dispose();
            return (null, TooBadToRead(sent));
        }

        var items = new List<BatchItem>(root.GetArrayLength());
        foreach (var element in root.EnumerateArray())
        {
            items.Add(new BatchItem(items.Count, element, null, null));
        }

        return (new BatchBody(document, items, bytes), null);
    }

    private static (BatchBody?, Problem?) OfCsv(byte[] bytes, Func<byte[], (CsvRows? Rows, Problem? Refusal)> read)
    {
        var (rows, refusal) = read(bytes);
        if (rows is null)
        {
            return (null, refusal);
        }

        if (rows.Lines.Count > MaxItems)
        {
            return (null, TooBadToRead($"{rows.Lines.Count} lines"));
        }

        var document = JsonDocument.Parse(rows.Json);
        var items = new List<BatchItem>(rows.Lines.Count);
        foreach (var element in document.RootElement.EnumerateArray())
        {
            var (line, unreadable, raw) = rows.Lines[items.Count];
            items.Add(new BatchItem(items.Count, element, line, unreadable) { Raw = raw });
        }

        return (new BatchBody(document, items, bytes, RequestBody.Csv) { Header = rows.Header }, null);
    }

    private static Problem TooBadToRead(string sent) =>
        Problem.Of(ProblemTypes.BadBatch, $"The body is {sent}; allowed: a list of at most {MaxItems} items. Nothing was stored.");
}
