using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;

namespace ReproLink.Api.Programmes;

/// <summary>A veterinarian refuses a version, and says why. Approvals given before hold no longer.</summary>
internal static class RefusalEndpoint
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
        var reader = new ObjectReader(body.Root, new FieldProblems());
        var (version, note) = Read(reader, store.Programmes.List(request.Herd, null));
        var (idempotency, wrongKey) = IdempotencyHeader.Of(context, body.Bytes);
        if (reader.Problems.Any || wrongKey is not null)
        {
            return wrongKey ?? Problem.OfBody(reader.Problems.List);
        }

        var answer = ProgrammeMapping.Answer(version, new Refusal(request.Caller.Name, request.Now, note));
        if (idempotency is null)
        {
            await store.Programmes.Refuse(request.Herd, version, request.Caller.Name, note, request.Now);
            return Results.Json(answer, statusCode: StatusCodes.Status201Created);
        }

        var once = await store.Programmes.Refuse(
            request.Herd, version, request.Caller.Name, note, request.Now, idempotency, _ => IdempotencyHeader.Keep(201, answer));
        return IdempotencyHeader.Answer(once.Status, once.Answer);
    }

    /// <summary>What is refused, and why; everything wrong with it goes to the reader's problems.</summary>
    public static (int Version, string Note) Read(ObjectReader reader, IReadOnlyList<SavedProgramme> saved)
    {
        var version = ApprovalEndpoint.VersionOf(reader, saved);
        var note = reader.Text("note", TextRule.Words, required: true);
        reader.Done();
        return (version, note ?? "");
    }
}
