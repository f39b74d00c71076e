using NodaTime;
using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Facts;

/// <summary>
/// Something that happened to one animal. Facts are appended, never changed; a correction withdraws one and appends another.
/// </summary>
/// <param name="Day">The day it occurred; for a result, the sample day (rule F2).</param>
public abstract record Fact(Day Day)
{
    /// <summary>Its identity in the herd.</summary>
    public FactId Id { get; init; }

    /// <summary>Who sent it; with <see cref="SourceId"/> it identifies the fact.</summary>
    public string Source { get; init; } = "";

    /// <summary>The sender's own id.</summary>
    public string SourceId { get; init; } = "";

    /// <summary>When the service recorded it.</summary>
    public Instant Recorded { get; init; }

    /// <summary>Local time of day; a fact without one counts from the start of its day (rule F3).</summary>
    public LocalTime? Time { get; init; }

    /// <summary>The kind.</summary>
    public abstract FactKind Kind { get; }
}

/// <summary>An identifier of an animal in a named scheme.</summary>
/// <param name="Scheme">The scheme, e.g. <c>us.bovine</c>.</param>
/// <param name="Id">The id, kept as received: leading zeros and blanks matter to people.</param>
public sealed record AnimalIdentifier(string Scheme, string Id);

/// <summary>The animal's card. Of several the one with the greatest (date, source, sourceId) counts; parity: the largest.</summary>
/// <param name="Day">The day it is dated; without a date the birth day, without that <see cref="Day.Earliest"/>.</param>
public sealed record AnimalCard(Day Day) : Fact(Day)
{
    /// <summary>Whether the sender dated the card.</summary>
    public bool Dated { get; init; }

    /// <summary>Birth day.</summary>
    public Day? Born { get; init; }

    /// <summary>Breed in plain words, e.g. Holstein.</summary>
    public string? Breed { get; init; }

    /// <summary>Calvings so far, 0 or more; absent = not said.</summary>
    public int? Parity { get; init; }

    /// <summary>Pen.</summary>
    public string? Pen { get; init; }

    /// <summary>Other identifiers she carries.</summary>
    public IReadOnlyList<AnimalIdentifier> Identifiers { get; init; } = [];

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Animal;
}

/// <summary>She came into the herd.</summary>
public sealed record Arrival(Day Day) : Fact(Day)
{
    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Arrival;
}

/// <summary>She calved; the calving day is day 0 of days in milk.</summary>
public sealed record Calving(Day Day) : Fact(Day)
{
    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Calving;
}

/// <summary>A pregnancy was lost.</summary>
/// <param name="Day">The day.</param>
/// <param name="Examined">Whether an examination found it: then it is also an examination <c>open</c> of that day (rule T6).</param>
public sealed record Loss(Day Day, bool Examined) : Fact(Day)
{
    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Loss;
}

/// <summary>She was seen in oestrus.</summary>
public sealed record Oestrus(Day Day) : Fact(Day)
{
    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Oestrus;
}

/// <summary>One attempt to make her pregnant.</summary>
public abstract record Service(Day Day) : Fact(Day)
{
    /// <summary>The sire, as the sender names him.</summary>
    public string? Sire { get; init; }

    /// <summary>The sire's breed in plain words; enters the gestation length.</summary>
    public string? SireBreed { get; init; }

    /// <summary>Who did it.</summary>
    public string? Technician { get; init; }

    /// <summary>Day 0 of the attempt: the service day; for an embryo transfer the recipient's oestrus.</summary>
    public abstract Day DayZero { get; }
}

/// <summary>Artificial insemination. Those at most 3 days apart are one service, dated by the last.</summary>
public sealed record Insemination(Day Day) : Service(Day)
{
    /// <inheritdoc/>
    public override Day DayZero => Day;

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Insemination;
}

/// <summary>A natural service that was seen.</summary>
public sealed record NaturalService(Day Day) : Service(Day)
{
    /// <inheritdoc/>
    public override Day DayZero => Day;

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.NaturalService;
}

/// <summary>An embryo was transferred.</summary>
/// <param name="Day">The transfer day.</param>
/// <param name="EmbryoAgeDays">Age of the embryo in days, default 7: day 0 is the transfer day less this.</param>
public sealed record EmbryoTransfer(Day Day, int EmbryoAgeDays = EmbryoTransfer.DefaultAgeDays) : Service(Day)
{
    /// <summary>A seven-day embryo (source: published transfer work, oestrus = day 0, embryo on day 7).</summary>
    public const int DefaultAgeDays = 7;

    /// <summary>The embryo's breed in plain words.</summary>
    public string? EmbryoBreed { get; init; }

    /// <inheritdoc/>
    public override Day DayZero => Day - EmbryoAgeDays;

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.EmbryoTransfer;
}

/// <summary>She ran with a bull.</summary>
/// <param name="Day">First day with the bull.</param>
/// <param name="Until">Last day with the bull; absent = he is still in.</param>
public sealed record Exposure(Day Day, Day? Until) : Fact(Day)
{
    /// <summary>The bull, as the sender names him.</summary>
    public string? Sire { get; init; }

    /// <summary>The bull's breed in plain words.</summary>
    public string? SireBreed { get; init; }

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Exposure;
}

/// <summary>A sample was taken.</summary>
public sealed record Sample(Day Day) : Fact(Day)
{
    /// <summary>What was taken: <c>serum</c>, <c>plasma</c>, <c>whole-blood</c>, <c>milk</c>.</summary>
    public string? Specimen { get; init; }

    /// <summary>The tube it went into.</summary>
    public string? Tube { get; init; }

    /// <summary>The day it left the farm; absent = not known to have left (rule L3).</summary>
    public Day? Dispatched { get; init; }

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Sample;
}

/// <summary>The result of a blood or milk test. It occurs on the sample day and is known from its report instant (rule F2).</summary>
/// <param name="Day">The sample day.</param>
/// <param name="Method">Blood or milk.</param>
/// <param name="Outcome">The outcome as received; absent when only a value came (rule T8).</param>
public sealed record TestResult(Day Day, TestMethod Method, Outcome? Outcome) : Fact(Day)
{
    /// <summary>When it was reported, as received; absent = when it was recorded.</summary>
    public Instant? ReportedAt { get; init; }

    /// <summary>The instant from which it is known (rule F2).</summary>
    public Instant Known => ReportedAt ?? Recorded;

    /// <summary>The measured value, as received.</summary>
    public double? Value { get; init; }

    /// <summary>The value's unit, as received.</summary>
    public string? Unit { get; init; }

    /// <summary>The assay, as received.</summary>
    public string? Assay { get; init; }

    /// <summary>What was tested, as received.</summary>
    public string? Specimen { get; init; }

    /// <summary>The tube, as received.</summary>
    public string? Tube { get; init; }

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Result;
}

/// <summary>Ultrasound or palpation (rule T6).</summary>
public sealed record Examination(Day Day, TestMethod Method, Outcome Outcome) : Fact(Day)
{
    /// <summary>When it was reported, as received.</summary>
    public Instant? ReportedAt { get; init; }

    /// <summary>Whether it came as a test result: then, without a report instant, it is known when recorded (rule F2).</summary>
    public bool CameAsResult { get; init; }

    /// <summary>The instant from which it is known; absent = from its own day, like every other fact.</summary>
    public Instant? Known => ReportedAt ?? (CameAsResult ? Recorded : null);

    /// <summary>Whether a corpus luteum was seen; absent = not said (rule S9).</summary>
    public bool? CorpusLuteum { get; init; }

    /// <summary>Who examined her.</summary>
    public string? Examiner { get; init; }

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Examination;
}

/// <summary>An agent was given, or a planned step reported as not done.</summary>
/// <param name="Day">The day.</param>
/// <param name="Agent">The active class.</param>
/// <param name="NotDone">True: the planned step was not done; nothing was given.</param>
public sealed record Treatment(Day Day, Agent Agent, bool NotDone) : Fact(Day)
{
    /// <summary>Why it was not done, in the sender's words.</summary>
    public string? Reason { get; init; }

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Treatment;
}

/// <summary>She is not to be bred.</summary>
public sealed record DoNotBreed(Day Day) : Fact(Day)
{
    /// <summary>Why, in the sender's words.</summary>
    public string? Reason { get; init; }

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.DoNotBreed;
}

/// <summary>She may be bred again.</summary>
public sealed record BreedAgain(Day Day) : Fact(Day)
{
    /// <inheritdoc/>
    public override FactKind Kind => FactKind.BreedAgain;
}

/// <summary>She was dried off.</summary>
public sealed record DryOff(Day Day) : Fact(Day)
{
    /// <inheritdoc/>
    public override FactKind Kind => FactKind.DryOff;
}

/// <summary>She left the herd: sold, dead, slaughtered, lent.</summary>
public sealed record Departure(Day Day) : Fact(Day)
{
    /// <summary>Why, in the sender's words.</summary>
    public string? Reason { get; init; }

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Departure;
}

/// <summary>A manager or veterinarian declares a fact that raised a conflict right (rule F6).</summary>
/// <param name="Day">The day from which it holds; without a date in the message, from the start.</param>
/// <param name="ConfirmsSource">The source of the fact declared right.</param>
/// <param name="ConfirmsSourceId">Its sourceId.</param>
public sealed record Confirm(Day Day, string ConfirmsSource, string ConfirmsSourceId) : Fact(Day)
{
    /// <summary>Whether the sender dated it.</summary>
    public bool Dated { get; init; }

    /// <summary>Why, in the sender's words.</summary>
    public string? Reason { get; init; }

    /// <inheritdoc/>
    public override FactKind Kind => FactKind.Confirm;
}
