using System.Text.Json;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

/// <summary>What a batch of facts would do; nothing of it is stored.</summary>
public sealed record FactPreviewAnswer
{
    /// <summary>How many facts would come to what.</summary>
    public required FactPreviewCounts Counts { get; init; }

    /// <summary>Fact by fact, in order.</summary>
    public required IReadOnlyList<FactPreviewLine> Facts { get; init; }

    /// <summary>Lines that would give no fact, and why. Absent = none.</summary>
    public IReadOnlyList<LeftOutLine>? LeftOut { get; init; }

    /// <summary>Headings that nothing would be read from. Absent = none.</summary>
    public IReadOnlyList<string>? UnreadColumns { get; init; }
}

/// <summary>How many facts would come to what.</summary>
public sealed record FactPreviewCounts
{
    /// <summary>All facts read.</summary>
    /// <example>4</example>
    public required int Received { get; init; }

    /// <summary>New.</summary>
    /// <example>2</example>
    public required int Accepted { get; init; }

    /// <summary>Would take the place of an earlier one.</summary>
    /// <example>1</example>
    public required int Replaced { get; init; }

    /// <summary>Are on record already.</summary>
    /// <example>1</example>
    public required int Duplicate { get; init; }

    /// <summary>Would be rejected.</summary>
    /// <example>0</example>
    public required int Rejected { get; init; }

    /// <summary>Lines that would give no fact.</summary>
    /// <example>0</example>
    public required int LinesLeftOut { get; init; }
}

/// <summary>What one fact would do.</summary>
public sealed record FactPreviewLine
{
    /// <summary>The line it stands in, as received; of a JSON list the item.</summary>
    /// <example>1042;Served;10/09/2026</example>
    public required string Text { get; init; }

    /// <summary>What was read from it.</summary>
    public required JsonElement Read { get; init; }

    /// <summary>The answer it would get; without the id of a fact that would be new.</summary>
    public required FactResult Result { get; init; }
}

/// <summary>What facts would do, by the path they would go.</summary>
internal static class FactPreview
{
    public static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (body, refusal) = await FactBody.Read(context, store);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var intake = new FactIntake(body, request);
        var rules = store.Views.Some(request.Herd, [], request.Now).Rules;
        var answers = await store.Facts.Preview(request.Herd, intake.Submission, request.Now, stored =>
        {
            var knownAt = Instant.Max(request.Now, stored.Recorded);
            return intake.Answer(stored, new AnimalTraces(stored.History, rules, Day.From(knownAt.InZone(request.Zone).Date), knownAt));
        }, context.RequestAborted);
        return Results.Ok(Answer(body, answers));
    }

    private static FactPreviewAnswer Answer(FactBody body, FactResults answers) => new()
    {
        Counts = new FactPreviewCounts
        {
            Received = answers.Results.Count,
            Accepted = Count(answers, "accepted"),
            Replaced = Count(answers, "replaced"),
            Duplicate = Count(answers, "duplicate"),
            Rejected = Count(answers, "rejected"),
            LinesLeftOut = answers.LeftOut?.Count ?? 0,
        },
        Facts = [.. body.Batch.Items.Select((item, i) => new FactPreviewLine
        {
            Text = item.Raw ?? item.Element.GetRawText(),
            Read = item.Element.Clone(),
            Result = answers.Results[i] with { FactId = answers.Results[i].Status == "duplicate" ? answers.Results[i].FactId : null },
        })],
        LeftOut = answers.LeftOut,
        UnreadColumns = answers.UnreadColumns,
    };

    private static int Count(FactResults answers, string status) => answers.Results.Count(r => r.Status == status);
}
