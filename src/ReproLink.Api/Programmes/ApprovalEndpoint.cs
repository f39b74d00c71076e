using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;

namespace ReproLink.Api.Programmes;

/// <summary>A veterinarian signs for a version.</summary>
internal static class ApprovalEndpoint
{
    public static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var saved = store.Programmes.List(request.Herd, null);
        var reader = new ObjectReader(body.Root, new FieldProblems());
        var (version, expires) = Read(reader, saved, request.Today);
        var (idempotency, wrongKey) = IdempotencyHeader.Of(context, body.Bytes);
        if (reader.Problems.Any || wrongKey is not null)
        {
            return wrongKey ?? Problem.OfBody(reader.Problems.List);
        }

        if (saved.First(p => p.Version.Number == version).Draft)
        {
            return Problem.Of(ProblemTypes.DraftNotApprovable, $"Version {version} is a draft.");
        }

        var answer = ProgrammeMapping.Answer(version, new Approval(request.Caller.Name, request.Now, expires));
        if (idempotency is null)
        {
            await store.Programmes.Approve(request.Herd, version, request.Caller.Name, expires, request.Now);
            return Results.Json(answer, statusCode: StatusCodes.Status201Created);
        }

        var once = await store.Programmes.Approve(
            request.Herd, version, request.Caller.Name, expires, request.Now, idempotency, _ => IdempotencyHeader.Keep(201, answer));
        return IdempotencyHeader.Answer(once.Status, once.Answer);
    }

    /// <summary>What is approved, and until when; everything wrong with it goes to the reader's problems.</summary>
    public static (int Version, Day? Expires) Read(ObjectReader reader, IReadOnlyList<SavedProgramme> saved, Day today)
    {
        var version = VersionOf(reader, saved);
        var expires = reader.Day("expires");
        if (expires is { } last && last < today)
        {
            reader.Refuse("expires", ProblemTypes.InvalidValue, $"on or after the herd's today, {today}");
        }

        reader.Done();
        return (version, expires);
    }

    /// <summary>The saved version that is meant; 0 = none of them.</summary>
    public static int VersionOf(ObjectReader reader, IReadOnlyList<SavedProgramme> saved)
    {
        var version = reader.Integer("version", 1, int.MaxValue, required: true);
        if (version is { } number && saved.All(p => p.Version.Number != number))
        {
            reader.Refuse("version", ProblemTypes.InvalidValue, saved.Count == 0
                ? "a saved version; the herd has saved none"
                : "a saved version: one of " + string.Join(", ", saved.Select(p => p.Version.Number)));
        }

        return version ?? 0;
    }
}
