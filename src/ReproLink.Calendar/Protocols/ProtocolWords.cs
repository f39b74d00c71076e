namespace ReproLink.Calendar.Protocols;

/// <summary>The words of steps, classes and uses as written in answers.</summary>
public static class ProtocolWords
{
    /// <summary>The word of a step.</summary>
    public static string Of(StepKind step) => step switch
    {
        StepKind.Gnrh => "gnrh",
        StepKind.Pgf => "pgf",
        StepKind.InsertIn => "insert-in",
        StepKind.InsertOut => "insert-out",
        StepKind.Inseminate => "inseminate",
        StepKind.WatchOestrus => "watch-oestrus",
        _ => throw new ArgumentOutOfRangeException(nameof(step), step, "no such step"),
    };

    /// <summary>The word of a class of animals.</summary>
    public static string Of(AnimalClass animals) => animals switch
    {
        AnimalClass.DairyCow => "dairy-cow",
        AnimalClass.DairyHeifer => "dairy-heifer",
        AnimalClass.BeefCow => "beef-cow",
        AnimalClass.BeefHeifer => "beef-heifer",
        AnimalClass.Any => "any",
        _ => throw new ArgumentOutOfRangeException(nameof(animals), animals, "no such class"),
    };

    /// <summary>The word of a use.</summary>
    public static string Of(ProtocolUse use) => use switch
    {
        ProtocolUse.FirstService => "first-service",
        ProtocolUse.Resynchronisation => "resynchronisation",
        ProtocolUse.Either => "either",
        _ => throw new ArgumentOutOfRangeException(nameof(use), use, "no such use"),
    };

    /// <summary>The word of an evidence mark.</summary>
    public static string Of(Evidence evidence) => evidence switch
    {
        Evidence.Seen => "seen",
        Evidence.Memory => "memory",
        Evidence.CommonPractice => "common-practice",
        _ => throw new ArgumentOutOfRangeException(nameof(evidence), evidence, "no such mark"),
    };
}
