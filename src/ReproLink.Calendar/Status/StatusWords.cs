namespace ReproLink.Calendar.Status;

/// <summary>The status as one word or two, for messages and pages.</summary>
public static class StatusWords
{
    /// <summary>The word as written in answers, e.g. <c>awaiting-test</c>.</summary>
    public static string Of(AnimalStatus status) => status switch
    {
        AnimalStatus.NotServed => "not-served",
        AnimalStatus.AwaitingTest => "awaiting-test",
        AnimalStatus.Pregnant => "pregnant",
        AnimalStatus.PregnantCaution => "pregnant-caution",
        AnimalStatus.Open => "open",
        AnimalStatus.Recheck => "recheck",
        AnimalStatus.Conflict => "conflict",
        AnimalStatus.DoNotBreed => "do-not-breed",
        AnimalStatus.Left => "left",
        _ => throw new ArgumentOutOfRangeException(nameof(status), status, "no such status"),
    };
}
