using System.IO.Compression;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using ReproLink.Api.Archives;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.HerdFiles;

/// <summary>Exported herds as a program sees them: taken out, changed, and put back.</summary>
internal static class ZipFiles
{
    public static async Task<byte[]> Export(this HerdClient herd, ApiHostFixture host)
    {
        using var client = host.CreateClient();
        using var answer = await client.GetAsync(herd.Address + "/export");
        Assert.True(answer.IsSuccessStatusCode, answer.ToString());
        Assert.Equal("application/zip", answer.Content.Headers.ContentType?.MediaType);
        return await answer.Content.ReadAsByteArrayAsync();
    }

    public static async Task<Answer> Import(this HerdClient herd, ApiHostFixture host, byte[] zip, string query = "", string? key = null, string mediaType = "application/zip")
    {
        using var client = host.CreateClient();
        if (key is not null)
        {
            client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        }

        using var body = new ByteArrayContent(zip);
        body.Headers.TryAddWithoutValidation("Content-Type", mediaType);
        using var response = await client.PostAsync(herd.Address + "/import" + query, body);
        var text = await response.Content.ReadAsStringAsync();
        var form = response.Content.Headers.ContentType?.MediaType;
        return new Answer(response.StatusCode, form, form?.EndsWith("json", StringComparison.Ordinal) == true ? JsonNode.Parse(text) : null, text, response.Headers);
    }

    public static Dictionary<string, byte[]> Unpack(byte[] zip)
    {
        using var archive = new ZipArchive(new MemoryStream(zip));
        return archive.Entries.ToDictionary(e => e.FullName, e =>
        {
            using var stream = e.Open();
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            return bytes.ToArray();
        });
    }

    /// <summary>Packs files with checksums that fit them, as somebody does who wants it to be believed.</summary>
    public static byte[] Pack(Dictionary<string, byte[]> files)
    {
        files[ArchiveFiles.Contents] = Encoding.UTF8.GetBytes(new JsonObject
        {
            ["form"] = 1,
            ["files"] = new JsonArray([.. files.Where(f => f.Key != ArchiveFiles.Contents).Select(f => new JsonObject
            {
                ["name"] = f.Key,
                ["sha256"] = Convert.ToHexStringLower(SHA256.HashData(f.Value)),
            })]),
        }.ToJsonString());
        return PackAsIs(files.Select(f => (f.Key, f.Value)));
    }

    public static byte[] PackAsIs(IEnumerable<(string Name, byte[] Bytes)> files)
    {
        var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create))
        {
            foreach (var (name, bytes) in files)
            {
                using var entry = archive.CreateEntry(name, CompressionLevel.Fastest).Open();
                entry.Write(bytes);
            }
        }

        return stream.ToArray();
    }

    /// <summary>The same zip with one text of one file changed, and checksums that fit.</summary>
    public static byte[] Changed(byte[] zip, string file, Func<string, string> change)
    {
        var files = Unpack(zip);
        var before = Encoding.UTF8.GetString(files[file]);
        var after = change(before);
        Assert.NotEqual(before, after);
        files[file] = Encoding.UTF8.GetBytes(after);
        return Pack(files);
    }

    public static string Text(byte[] zip, string file) => Encoding.UTF8.GetString(Unpack(zip)[file]);
}
