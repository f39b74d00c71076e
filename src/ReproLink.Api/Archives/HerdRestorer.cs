using NodaTime;
using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>Puts a zip back into an empty herd.</summary>
internal static class HerdRestorer
{
    /// <param name="store">The store.</param>
    /// <param name="into">An empty herd, once the zip is known to be good.</param>
    /// <param name="zip">The zip.</param>
    /// <param name="veterinarian">The veterinarian who answers for the approvals in it; null = they are not put back.</param>
    /// <param name="now">Now.</param>
    /// <param name="ct">Ends the waiting.</param>
    public static async Task<(ImportAnswer? Answer, Problem? Refusal)> Restore(
        Store store, Func<HerdArchive, Task<Herd>> into, Stream zip, string? veterinarian, Instant now, CancellationToken ct = default)
    {
        var (read, refusal) = ZipReader.Read(zip, now);
        if (read is null)
        {
            return (null, refusal);
        }

        var archive = veterinarian is null ? read.Archive : read.Archive with { Rows = [.. read.Archive.Rows, .. AnsweredFor(read, veterinarian)] };
        var restored = await store.Archives.Restore(await into(archive), archive, now, ct);
        return restored.Status switch
        {
            RestoreStatus.Restored => (Answer(read, veterinarian is not null), null),
            RestoreStatus.NotEmpty => (null, Problem.Of(ProblemTypes.HerdNotEmpty, "The location has records already; a zip is put back into an empty one. Nothing was stored.")),
            _ => (null, Problem.Of(ProblemTypes.BadArchive, $"The records contradict each other: {restored.Why}. Nothing was stored.")),
        };
    }

    // The record says who answered for it here, beside who signed it there.
    private static IEnumerable<KeptRecord> AnsweredFor(ReadArchive read, string veterinarian)
    {
        string By(string signed) => signed == veterinarian || signed.EndsWith($"; put back by {veterinarian}", StringComparison.Ordinal) ? signed : $"{signed}; put back by {veterinarian}";
        return read.Approvals.Select(a => (KeptRecord)(a with { By = By(a.By) })).Concat(read.Confirmations.Select(c => c with { By = By(c.By) }));
    }

    private static ImportAnswer Answer(ReadArchive read, bool approvals)
    {
        var rows = read.Archive.Rows;
        return new ImportAnswer
        {
            Restored = new ImportCounts
            {
                Facts = rows.OfType<KeptFact>().Count(),
                Withdrawn = rows.OfType<KeptWithdrawal>().Count(),
                Held = rows.OfType<KeptHeld>().Count(),
                Programmes = rows.OfType<KeptProgramme>().Count(),
                Protocols = rows.OfType<KeptProtocol>().Count(),
                Rounds = rows.OfType<KeptRound>().Count(),
                Tubes = rows.OfType<KeptTube>().Count(),
                ReceivedLines = read.Archive.Lines.Count,
                Mappings = read.Archive.ResultMappings.Count + read.Archive.FactMappings.Count,
            },
            Approvals = new ImportedApprovals
            {
                Restored = approvals,
                Versions = [.. read.Approvals.Select(a => new ImportedApproval { Version = a.Version, ApprovedBy = a.By, ApprovedAt = a.At, Expires = a.Expires?.Date })],
                Protocols = [.. read.Confirmations.Select(c => c.Protocol).Distinct()],
            },
        };
    }
}
