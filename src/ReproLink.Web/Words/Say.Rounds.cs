using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Web.Words;

/// <content>The sampling round and the chute.</content>
public static partial class Say
{
    public static string Round(int number) => $"Round R{number}";

    public static string Of(RoundState state) => state switch
    {
        RoundState.Planned => "not begun",
        RoundState.Drawing => "being drawn",
        RoundState.Drawn => "drawn, not all sent off",
        RoundState.Dispatched => "sent off, results awaited",
        _ => "all answered",
    };

    public static string Of(TubeStanding standing) => standing switch
    {
        { State: TubeState.Planned } => "to draw",
        { State: TubeState.Drawn } => "drawn",
        { State: TubeState.Short } => "short",
        { State: TubeState.Broken } => "broken or given up",
        { Marked.Reason: { } reason } => Of(reason),
        _ => "not drawn",
    };

    public static string Of(NotDrawnReason reason) => reason switch
    {
        NotDrawnReason.NotFound => "not found",
        NotDrawnReason.Refused => "would not stand",
        NotDrawnReason.NoFlow => "no flow",
        NotDrawnReason.OutOfOrder => "came out of order",
        NotDrawnReason.Ill => "ill or in treatment",
        NotDrawnReason.Gone => "gone",
        _ => "not drawn",
    };

    /// <summary>The same on a button.</summary>
    public static string Button(NotDrawnReason reason) => reason switch
    {
        NotDrawnReason.NotFound => "Not found",
        NotDrawnReason.Refused => "Would not stand",
        NotDrawnReason.NoFlow => "No flow",
        NotDrawnReason.OutOfOrder => "Out of order",
        NotDrawnReason.Ill => "Ill",
        NotDrawnReason.Gone => "Gone",
        _ => "Other reason",
    };

    /// <summary>When and by whom, as far as it was said: “5 Oct 06:41, Ana”.</summary>
    public static string Stamp(TubeMarked? marked) => marked is null ? "" : string.Join(", ", new[]
    {
        $"{ShortDay(marked.Day)}{(marked.Time is { } time ? $" {Clock(time)}" : "")}", marked.By,
    }.OfType<string>());

    /// <summary>What a sample is to answer, from the word a round keeps.</summary>
    public static string WhatFor(string? word) =>
        Enum.GetValues<Need>().Where(n => AnswerWords.Of(n) == word).Select(Of).FirstOrDefault() ?? "picked by hand";

    public static string When(string moment) => moment switch
    {
        "before" => "Before",
        "each-cow" => "At each cow",
        _ => "Afterwards",
    };

    public static string Progress(Round round)
    {
        ArgumentNullException.ThrowIfNull(round);
        var settled = round.Tubes.Count(t => t.Standing.State != TubeState.Planned);
        return $"{settled} of {round.Tubes.Count} tubes settled, {round.Tubes.Count(t => t.Standing.HasBlood)} with blood";
    }

    public static string Supplies(Supplies supplies)
    {
        ArgumentNullException.ThrowIfNull(supplies);
        return string.Join(" · ",
            Count(supplies.Needles, "needle", "needles"), Count(supplies.Tubes, "tube", "tubes"), Count(supplies.Labels, "label", "labels"),
            Count(supplies.SharpsContainers, "sharps container", "sharps containers"));
    }

    /// <summary>A tube that waits too long, or soon will (rule L3).</summary>
    public static string Waiting(int days) => days > Storage.MostDays
        ? $"Drawn {days} days before: after {Storage.MostDays} days its result decides nothing. Draw her again instead."
        : $"Drawn {days} days before: it must leave within {Storage.MostDays} days of the draw.";

    public static string NotInRound(string text, int round) => $"“{text}” is no tube and no animal of {Round(round)}.";

    public static string ForeignTube(string tube, Round other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var number = TubeNames.Read(tube) is var (_, n) ? n : 0;
        return other.Find(number) is { } found
            ? $"{found.Name} is a tube of another round, {Round(other.Number)} of {ShortDay(other.Day)}, labelled for {found.Animal}. Do not use it here."
            : $"{TubeNames.AsPrinted(tube)} was never labelled: {Round(other.Number)} has no such tube.";
    }

    public static string NoSuchTube(string tube) => $"{TubeNames.AsPrinted(tube)} was never labelled in this herd. Do not use it.";

    public static string Sent(int tubes) => $"{Count(tubes, "tube", "tubes")} sent off.";

    public static string ReportExpected(Day day, LocalTime time) => $"The report is expected on {LongDay(day)} at {Clock(time)}.";

    public const string TickTubes = "Tick the tubes that leave.";

    public const string ChooseAnimals = "Tick an animal, or name one.";

    public const string NoDay = "Choose the day of the round.";

    public const string AllSettled = "Every tube of this round is settled.";

    public const string ManifestNeeded = "Put the manifest into the box with the tubes.";
}
