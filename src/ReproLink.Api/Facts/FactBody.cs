using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

/// <summary>A body of facts, read as its sender writes: our own names, or a saved mapping of theirs.</summary>
internal sealed class FactBody : IDisposable
{
    public static readonly ParameterDoc SenderDoc = new("sender", "The saved mapping by which a CSV is read; it is then the source of its facts.", "herd-book");

    private FactBody(BatchBody batch, MappedFacts? mapped) => (Batch, Mapped) = (batch, mapped);

    public BatchBody Batch { get; }

    /// <summary>What was read by a mapping; absent = our own names.</summary>
    public MappedFacts? Mapped { get; }

    public static async Task<(FactBody? Body, IResult? Refusal)> Read(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        var sender = query.Text("sender");
        if (query.Done() is { } refused)
        {
            return (null, refused);
        }

        if (sender is null)
        {
            var (own, refusal) = await BatchBody.Read(context, FactCsv.Shape);
            return own is null ? (null, refusal) : (new FactBody(own, null), null);
        }

        return FactMappingSheet.Find(store, context.Herd().Herd, sender) is { } sheet
            ? await Read(context, sheet)
            : (null, FactMappingEndpoints.NoMapping(sender));
    }

    public void Dispose() => Batch.Dispose();

    private static async Task<(FactBody? Body, IResult? Refusal)> Read(HttpContext context, FactMappingSheet sheet)
    {
        var mapped = new MappedFacts(sheet);
        var (batch, refusal) = await BatchBody.ReadFile(context, mapped.Read);
        return batch is null ? (null, refusal) : (new FactBody(batch, mapped), null);
    }
}
