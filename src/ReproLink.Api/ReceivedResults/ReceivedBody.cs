using System.Collections.Frozen;
using System.Text;
using ReproLink.Api.Access;
using ReproLink.Api.Intake;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>A body of results, read as its sender writes: our own names, or a saved mapping of theirs.</summary>
internal sealed class ReceivedBody : IDisposable
{
    /// <summary>Our own columns.</summary>
    public static readonly CsvShape Shape = new(
        SenderMapping.Properties.Append("source").ToFrozenSet(),
        Numbers: FrozenSet.Create<string>("value"),
        Truths: FrozenSet.Create<string>("corpusLuteum"),
        Lists: FrozenSet<string>.Empty);

    private ReceivedBody(BatchBody batch, string? sender, string? file) => (Batch, Sender, File) = (batch, sender, file);

    public static readonly ParameterDoc SenderDoc = new("sender", "Who the results come from: the source of those that name none, and for CSV the saved mapping they are read by.", "valley-laboratory");

    public static readonly ParameterDoc FileDoc = new("file", "Name of the file they came in, kept beside every line.", "results-1009.csv");

    public BatchBody Batch { get; }

    public string? Sender { get; }

    public string? File { get; }

    public static async Task<(ReceivedBody? Body, IResult? Refusal)> Read(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        var (sender, file) = (query.Text("sender"), query.Text("file"));
        if (query.Done() is { } refused)
        {
            return (null, refused);
        }

        var request = context.Herd();
        var (batch, refusal) = sender is null
            ? await BatchBody.Read(context, Shape)
            : await BatchBody.ReadFile(context, bytes => OfCsv(bytes, request, store, sender));
        return batch is null ? (null, refusal) : (new ReceivedBody(batch, sender, file), null);
    }

    /// <summary>Results that came in a form of a page: a JSON list, or CSV.</summary>
    public static (ReceivedBody? Body, Problem? Refusal) Of(string text, string? sender, string? file, HerdRequest request, Store store)
    {
        var mediaType = text.TrimStart().StartsWith('[') ? RequestBody.Json : RequestBody.Csv;
        // The mark says that it is UTF-8, whatever letters the sender's files are stored in.
        byte[] marked = [.. sender is null ? [] : Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text)];
        var (batch, refusal) = BatchBody.Of(marked, mediaType, bytes => sender is null ? CsvRows.Read(bytes, Shape) : OfCsv(bytes, request, store, sender));
        return batch is null ? (null, refusal) : (new ReceivedBody(batch, sender, file), null);
    }

    public void Dispose() => Batch.Dispose();

    private static (CsvRows?, Problem?) OfCsv(byte[] bytes, HerdRequest request, Store store, string sender) =>
        SenderMapping.Find(store, request.Herd, sender) is { } mapping
            ? store.Rounds.Look(request.Herd, tubes => new MappedRows(mapping, request, tubes).Read(bytes))
            : (null, MappingEndpoints.NoMapping(sender));
}
