using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Commands.Importing;

/// <summary>Imports the lines of one herd, judged by the reader of the service's own door.</summary>
internal sealed class HerdImport(Store store, Herd herd, string source, Instant now)
{
    private const int BatchSize = 1000;
    private readonly FactReader _reader = new(HerdRequest.Of(Caller.Local with { Name = source }, herd, now));

    public async Task Run(string file, IReadOnlyList<BatchItem> items, ImportSummary summary, Action<int> done)
    {
        foreach (var batch in items.Chunk(BatchSize))
        {
            var drafts = Judge(file, batch, summary);
            foreach (var answer in await store.Facts.Append(herd, drafts, now))
            {
                summary.Add(answer.Status);
            }

            done(batch.Length);
        }
    }

    /// <summary>What the same would do: done as one, and undone.</summary>
    public async Task Try(string file, IReadOnlyList<BatchItem> items, ImportSummary summary, Action<int> done)
    {
        var drafts = Judge(file, items, summary);
        foreach (var answer in await store.Facts.Preview(herd, new Submission(drafts, []), now, stored => stored.Facts))
        {
            summary.Add(answer.Status);
        }

        done(items.Count);
    }

    private List<FactDraft> Judge(string file, IReadOnlyList<BatchItem> batch, ImportSummary summary)
    {
        var drafts = new List<FactDraft>(batch.Count);
        foreach (var item in batch)
        {
            var problems = new FieldProblems();
            if (item.Unreadable is { } unreadable)
            {
                summary.Reject(file, item.Line, [unreadable]);
            }
            else if (_reader.Read(item, problems).Draft is { } draft)
            {
                drafts.Add(draft);
            }
            else
            {
                summary.Reject(file, item.Line, problems.List);
            }
        }

        return drafts;
    }
}
