using System.IO.Compression;
using System.Security.Cryptography;
using NodaTime;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>What a zip holds, read whole and judged.</summary>
/// <param name="Archive">What is put back; approvals and confirmations stand apart.</param>
/// <param name="Approvals">The approvals in it.</param>
/// <param name="Confirmations">The confirmations of recalled protocols in it.</param>
internal sealed record ReadArchive(HerdArchive Archive, IReadOnlyList<KeptApproval> Approvals, IReadOnlyList<KeptConfirmation> Confirmations);

/// <summary>Reads an exported zip. Nothing of it is written to a disk by the name it has in there, and nothing is stored.</summary>
internal sealed partial class ZipReader
{
    // One day ahead, as at every door (rule F4).
    private const int DaysAhead = 1;

    private readonly FieldProblems _problems = new();
    private readonly Dictionary<string, ZipArchiveEntry> _entries = new(StringComparer.Ordinal);
    private readonly Instant _now;

    private ZipReader(Instant now) => _now = now;

    public static (ReadArchive? Archive, Problem? Refusal) Read(Stream stream, Instant now)
    {
        var reader = new ZipReader(now);
        try
        {
            using var zip = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
            var archive = reader.IsWhole(zip) ? reader.Read() : null;
            return archive is not null && !reader._problems.Any ? (archive, null) : (null, Refused(reader._problems));
        }
        catch (Exception broken) when (IsOfBrokenZip(broken))
        {
            return (null, Problem.Of(ProblemTypes.BadArchive, "The body is not a whole zip file. Nothing was stored."));
        }
    }

    // What the library throws at bytes that are none and at what it cannot unpack; 60,000 zips with flipped bytes got no other.
    private static bool IsOfBrokenZip(Exception broken) => broken is InvalidDataException or NotSupportedException or EndOfStreamException;

    private static Problem Refused(FieldProblems problems) => problems.List.All(p => p.Type == ProblemTypes.BadArchive)
        ? Problem.Of(ProblemTypes.BadArchive, problems.List[0])
        : Problem.OfBody(problems.List);

    /// <summary>Whether it has every file of an export and no other, each as it was written.</summary>
    private bool IsWhole(ZipArchive zip)
    {
        foreach (var entry in zip.Entries)
        {
            if (!ArchiveFiles.Listed.Append(ArchiveFiles.Contents).Contains(entry.FullName) || !_entries.TryAdd(entry.FullName, entry))
            {
                Refuse(entry.FullName, "is no file of an export, or there twice");
                return false;
            }
        }

        foreach (var name in ArchiveFiles.Listed.Append(ArchiveFiles.Contents).Where(n => !_entries.ContainsKey(n)))
        {
            Refuse(name, "is missing");
        }

        return !_problems.Any && Checksums() is { } sums && AreAsWritten(sums);
    }

    private Dictionary<string, string>? Checksums()
    {
        const int Most = 64 * 1024;
        using var stream = _entries[ArchiveFiles.Contents].Open();
        var bytes = new byte[Most];
        var length = stream.ReadAtLeast(bytes, Most, throwOnEndOfStream: false);
        var document = ArchiveJson.Parse(bytes[..length]);
        using (document)
        {
            if (length == Most || document is null)
            {
                Refuse(ArchiveFiles.Contents, "is not the list of an export");
                return null;
            }

            var reader = new ObjectReader(document.RootElement, _problems);
            if (!reader.IsObject || reader.Integer("form", ArchiveFiles.Form, ArchiveFiles.Form, required: true) is null)
            {
                Refuse(ArchiveFiles.Contents, $"is of another form; allowed: {ArchiveFiles.Form}");
                return null;
            }

            var sums = ArchiveJson.Items(reader, "files", ArchiveFiles.Listed.Length, item =>
                (Name: item.Text("name", TextRule.Name, required: true) ?? "", Sum: item.Text("sha256", TextRule.Name, required: true) ?? ""));
            return _problems.Any ? null : sums.DistinctBy(s => s.Name).ToDictionary(s => s.Name, s => s.Sum, StringComparer.Ordinal);
        }
    }

    // Unpacked as far as is allowed and no further, whatever the zip says of its sizes.
    private bool AreAsWritten(Dictionary<string, string> sums)
    {
        var left = ArchiveFiles.MostBytes;
        var buffer = new byte[64 * 1024];
        foreach (var name in ArchiveFiles.Listed)
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            using var stream = _entries[name].Open();
            var unpacked = 0L;
            int read;
            while ((read = stream.Read(buffer)) > 0)
            {
                left -= read;
                unpacked += read;
                if (left < 0 || (unpacked > ArchiveFiles.MostJsonBytes && name.EndsWith(".json", StringComparison.Ordinal)))
                {
                    Refuse(name, $"unpacks to too much: allowed are {ArchiveFiles.MostJsonBytes / 1024 / 1024} MB of JSON and {ArchiveFiles.MostBytes / 1024 / 1024} MB in all");
                    return false;
                }

                hash.AppendData(buffer, 0, read);
            }

            if (sums.GetValueOrDefault(name) != Convert.ToHexStringLower(hash.GetHashAndReset()))
            {
                Refuse(name, "is not as it was exported: its checksum is another");
            }
        }

        return !_problems.Any;
    }

    private void Refuse(string name, string why)
    {
        var shown = name.Length <= 60 ? name : name[..60] + "…";
        _problems.Add(ProblemTypes.BadArchive, shown, null, "the files of an export, unchanged: " + string.Join(", ", ArchiveFiles.Listed.Append(ArchiveFiles.Contents)),
            $"{shown} {why}. Nothing was stored.");
    }
}
