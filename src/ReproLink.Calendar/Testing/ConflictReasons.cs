using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>The sentence of a conflict (rule T7).</summary>
public static class ConflictReasons
{
    /// <summary>What contradicts what.</summary>
    public static Reason Of(Conflict conflict, AnimalState state)
    {
        ArgumentNullException.ThrowIfNull(conflict);
        FactId[] facts = conflict.Against is { } against && against != conflict.RaisedBy
            ? [conflict.RaisedBy, against]
            : [conflict.RaisedBy];
        // Of a loss it is T3 that says from when blood tells.
        var from = conflict.Kind == ConflictKind.LossNotExamined ? null : conflict.EndsFrom;
        return new Reason($"T7 {conflict.Letter}", from, Text(conflict), facts);
    }

    private static string Text(Conflict conflict) => conflict.Kind switch
    {
        ConflictKind.OpenAfterPregnant => $"open on {conflict.Since.ToSentence()} after pregnant, without a recorded loss",
        ConflictKind.ServedAfterPregnant => $"service, oestrus or a bull on {conflict.Since.ToSentence()} contradicts the pregnancy",
        ConflictKind.PregnantWithoutService => $"pregnant on {conflict.Since.ToSentence()} without a service or exposure on record",
        ConflictKind.ResultsDisagree => $"results of {conflict.Since.ToSentence()} disagree",
        ConflictKind.CalvedWhileOpen => $"calved on {conflict.Since.ToSentence()} while open",
        ConflictKind.CalvedTooSoon => $"calved on {conflict.Since.ToSentence()}, too soon after the service",
        ConflictKind.ProstaglandinGiven => $"prostaglandin recorded on {conflict.Since.ToSentence()} while she was not known open",
        ConflictKind.LossNotExamined => $"a loss recorded on {conflict.Since.ToSentence()} without an examination",
        _ => throw new InvalidOperationException($"no sentence for conflict {conflict.Letter}"),
    };
}
