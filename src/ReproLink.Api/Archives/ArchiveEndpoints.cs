using Microsoft.AspNetCore.Http.Features;
using Microsoft.Net.Http.Headers;
using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>A herd taken out whole, and put back.</summary>
internal static class ArchiveEndpoints
{
    public const string Zip = "application/zip";

    private const string Example = """
        {"restored":{"facts":1204,"withdrawn":3,"held":2,"programmes":2,"protocols":0,"rounds":12,"tubes":240,"receivedLines":236,"mappings":1},
         "approvals":{"restored":false,"versions":[{"version":2,"approvedBy":"Dr Hale","approvedAt":"2026-08-31T10:00:00Z","expires":"2027-09-01"}],"protocols":[]}}
        """;

    public static void MapArchives(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/export", Export)
            .WithMetadata(new Needs(Permissions.Manage))
            .Describe("Herd", "exportHerd", "Take a herd out whole", """
                A zip of CSV and JSON with everything on record of the herd, what was withdrawn and every moment of recording too, and a README.txt that says
                what is what. No keys and no calendar links. The same records give the same bytes. Manager.
                """)
            .Answers(200, "The zip.", Zip, typeof(Stream), "(a zip file)")
            .Refuses(400);
        herd.MapPost("/import", Import)
            .WithMetadata(new Needs(Permissions.Restore))
            .Describe("Herd", "importHerd", "Put a herd back", """
                Puts an exported zip into a location that has no records yet: all of it or nothing. Name and time zone are taken from it, moments of recording
                are kept, so that the past can be asked about as before. Approvals in it release nothing unless a veterinarian's key asks for
                `approvals=restore`; otherwise they are told in the answer and a veterinarian approves anew. Manager or veterinarian.
                """)
            .Takes(new ParameterDoc("approvals", "`restore`: the veterinarian whose key this is answers for the approvals in the zip. Absent = `leave`.", "leave") { Words = ["leave", "restore"] })
            .Reads(typeof(Stream), "The zip as it was exported.", "(a zip file)", Zip)
            .AnswersJson(200, "It is on record.", typeof(ImportAnswer), Example)
            .Conflicts(ProblemTypes.HerdNotEmpty)
            .Refuses(400, 413, 415);
    }

    private static IResult Export(HttpContext context, Store store)
    {
        if (new QueryReader(context).Done() is { } refusal)
        {
            return refusal;
        }

        // Into a file first: a slow reader must not keep the store from tidying up, and a failure is answered as one.
        var file = TempFiles.New();
        try
        {
            ZipWriter.Write(store, context.Herd().Herd, file);
            file.Position = 0;
        }
        catch
        {
            file.Dispose();
            throw;
        }

        context.Response.Headers.CacheControl = "no-store";
        return Results.Stream(file, Zip, FileName(context.Location()));
    }

    private static async Task<IResult> Import(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        var restore = query.Word("approvals", "leave", "restore") == "restore";
        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var request = context.Herd();
        if (restore && !request.Caller.Can(Permissions.Approve))
        {
            return Problem.Of(ProblemTypes.NotPermitted, $"The key '{request.Caller.Name}' may not answer for approvals; roles that may: {Caller.RolesThatCan(Permissions.Approve)}. Nothing was stored.");
        }

        if (!MediaTypeHeaderValue.TryParse(context.Request.ContentType, out var type) || !type.MediaType.Equals(Zip, StringComparison.OrdinalIgnoreCase))
        {
            return Problem.Of(ProblemTypes.MediaTypeNotSupported, $"'{context.Request.ContentType}' is not read here; allowed: {Zip}.");
        }

        await using var file = TempFiles.New();
        if (!await Receive(context, file))
        {
            return Problem.Of(ProblemTypes.BodyTooLarge, $"The zip is larger than {ArchiveFiles.MostZipBytes / 1024 / 1024} MB. Nothing was stored.");
        }

        var (answer, refused) = await HerdRestorer.Restore(
            store, _ => Task.FromResult(request.Herd), file, restore ? request.Caller.Name : null, request.Now, context.RequestAborted);
        return answer is null ? refused! : Results.Ok(answer);
    }

    private static async Task<bool> Receive(HttpContext context, FileStream file)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = ArchiveFiles.MostZipBytes + 1L;
        }

        if (context.Request.ContentLength > ArchiveFiles.MostZipBytes)
        {
            return false;
        }

        var buffer = new byte[64 * 1024];
        int read;
        while ((read = await context.Request.Body.ReadAsync(buffer, context.RequestAborted)) > 0)
        {
            if (file.Length + read > ArchiveFiles.MostZipBytes)
            {
                return false;
            }

            await file.WriteAsync(buffer.AsMemory(0, read), context.RequestAborted);
        }

        file.Position = 0;
        return true;
    }

    private static string FileName(LocationKey location) =>
        "herd-" + string.Concat(location.Id.Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '-')) + ".zip";
}
