using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using ReproLink.Api.Composition;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>
/// Writes a herd into a zip. The same records give the same bytes: nothing in it says when or where it was made.
/// </summary>
internal sealed class ZipWriter : IDisposable
{
    // The first moment a zip can say.
    private static readonly DateTimeOffset Always = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private readonly ZipArchive _zip;
    private readonly JsonArray _contents = [];

    private ZipWriter(Stream stream) => _zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);

    public void Dispose() => _zip.Dispose();

    /// <summary>Writes everything, read at one moment, row by row.</summary>
    public static void Write(Store store, Herd herd, Stream stream) => store.Archives.Read(herd, records =>
    {
        using var writer = new ZipWriter(stream);
        writer.Write(records);
        return true;
    });

    private void Write(HerdRecords records)
    {
        Bytes(ArchiveFiles.ReadMe, Encoding.UTF8.GetBytes(ArchiveReadMe.Text));
        Json(ArchiveFiles.Herd, new JsonObject { ["name"] = records.Herd.Name, ["timeZone"] = records.Herd.TimeZone });
        Table(ArchiveFiles.Facts, FactTable.Columns, records.Facts().Where(f => !ResultTable.IsResult(f.Fact)).Select(FactTable.Write));
        Table(ArchiveFiles.Results, ResultTable.Columns, records.Facts().Where(f => ResultTable.IsResult(f.Fact)).Select(ResultTable.Write));
        Table(ArchiveFiles.Held, HeldTable.Columns, records.Held().Select(HeldTable.Write));
        Json(ArchiveFiles.Programmes, ProgrammeFile.Write(records));
        Json(ArchiveFiles.Protocols, ProtocolFile.Write(records));
        Table(ArchiveFiles.Rounds, RoundTables.Rounds, records.Rounds().Select(RoundTables.Write));
        Table(ArchiveFiles.Tubes, RoundTables.Tubes, records.Tubes().Select(RoundTables.Write));
        Table(ArchiveFiles.TubeEvents, RoundTables.Events, records.TubeEvents().Select(RoundTables.Write));
        Table(ArchiveFiles.Dispatches, RoundTables.Dispatches, records.Dispatches().Select(RoundTables.Write));
        Table(ArchiveFiles.Batches, ReceivedTables.Batches, records.Batches().Select(ReceivedTables.Write));
        Table(ArchiveFiles.Lines, ReceivedTables.Lines, records.Lines().Select(ReceivedTables.Write));
        Json(ArchiveFiles.Mappings, MappingFile.Write(records));
        Json(ArchiveFiles.Contents, new JsonObject { ["form"] = ArchiveFiles.Form, ["files"] = _contents });
    }

    private void Table(string name, string[] columns, IEnumerable<string?[]> lines) => Entry(name, stream => ArchiveTable.Write(stream, columns, lines));

    private void Json(string name, JsonObject json) => Bytes(name, JsonSerializer.SerializeToUtf8Bytes(json, JsonSetup.Options));

    private void Bytes(string name, byte[] bytes) => Entry(name, stream => stream.Write(bytes));

    private void Entry(string name, Action<Stream> write)
    {
        var entry = _zip.CreateEntry(name, CompressionLevel.Fastest);
        entry.LastWriteTime = Always;
        using var hash = SHA256.Create();
        using (var stream = entry.Open())
        using (var hashed = new CryptoStream(stream, hash, CryptoStreamMode.Write))
        {
            write(hashed);
        }

        _contents.Add(new JsonObject { ["name"] = name, ["sha256"] = Convert.ToHexStringLower(hash.Hash!) });
    }
}
