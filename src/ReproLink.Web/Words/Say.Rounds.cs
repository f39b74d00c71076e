using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;
using ReproLink.Calendar.Testing;
using ReproLink.Records;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <content>The sampling round and the chute.</content>
public static partial class Say
{
    public static string Round(int number) => T("round.round-r", number);

    public static string Of(RoundState state) => state switch
    {
        RoundState.Planned => T("round.not-begun"),
        RoundState.Drawing => T("round.being-drawn"),
        RoundState.Drawn => T("round.drawn-not-all-sent-off"),
        RoundState.Dispatched => T("round.sent-off-results-awaited"),
        _ => T("round.all-answered"),
    };

    public static string Of(TubeStanding standing) => standing switch
    {
        { State: TubeState.Planned } => T("round.to-draw"),
        { State: TubeState.Drawn } => T("round.drawn"),
        { State: TubeState.Short } => T("round.short"),
        { State: TubeState.Broken } => T("round.broken-or-given-up"),
        { Marked.Reason: { } reason } => Of(reason),
        _ => T("round.not-drawn"),
    };

    public static string Of(NotDrawnReason reason) => reason switch
    {
        NotDrawnReason.NotFound => T("round.not-found"),
        NotDrawnReason.Refused => T("round.would-not-stand"),
        NotDrawnReason.NoFlow => T("round.no-flow"),
        NotDrawnReason.OutOfOrder => T("round.came-out-of-order"),
        NotDrawnReason.Ill => T("round.ill-or-in-treatment"),
        NotDrawnReason.Gone => T("round.gone"),
        _ => T("round.not-drawn"),
    };

    /// <summary>The same on a button.</summary>
    public static string Button(NotDrawnReason reason) => reason switch
    {
        NotDrawnReason.NotFound => T("round.button-not-found"),
        NotDrawnReason.Refused => T("round.button-would-not-stand"),
        NotDrawnReason.NoFlow => T("round.button-no-flow"),
        NotDrawnReason.OutOfOrder => T("round.out-of-order"),
        NotDrawnReason.Ill => T("round.ill"),
        NotDrawnReason.Gone => T("round.button-gone"),
        _ => T("round.other-reason"),
    };

    /// <summary>When and by whom, as far as it was said: “5 Oct 06:41, Ana”.</summary>
    public static string Stamp(TubeMarked? marked) => marked is null ? "" : string.Join(", ", new[]
    {
        $"{ShortDay(marked.Day)}{(marked.Time is { } time ? $" {Clock(time)}" : "")}", marked.By,
    }.OfType<string>());

    /// <summary>What a sample is to answer, from the word a round keeps.</summary>
    public static string WhatFor(string? word) =>
        Enum.GetValues<Need>().Where(n => AnswerWords.Of(n) == word).Select(Of).FirstOrDefault() ?? T("round.picked-by-hand");

    public static string When(string moment) => moment switch
    {
        "before" => T("round.before"),
        "each-cow" => T("round.at-each-cow"),
        _ => T("round.afterwards"),
    };

    public static string Progress(Round round)
    {
        ArgumentNullException.ThrowIfNull(round);
        var settled = round.Tubes.Count(t => t.Standing.State != TubeState.Planned);
        return T("round.of-tubes-settled-with-blood", settled, round.Tubes.Count, round.Tubes.Count(t => t.Standing.HasBlood));
    }

    public static string Supplies(Supplies supplies)
    {
        ArgumentNullException.ThrowIfNull(supplies);
        return string.Join(" · ",
            Number("common.count-needles", supplies.Needles), Number("common.count-tubes", supplies.Tubes), Number("round.count-labels", supplies.Labels),
            Number("round.sharps-containers", supplies.SharpsContainers));
    }

    /// <summary>A tube that waits too long, or soon will (rule L3).</summary>
    public static string Waiting(int days) => days > Storage.MostDays
        ? T("round.drawn-days-before-after-days-its", days, Storage.MostDays)
        : T("round.drawn-days-before-it-must-leave", days, Storage.MostDays);

    public static string NotInRound(string text, int round) => T("round.is-no-tube-and-no-animal", text, Round(round));

    public static string ForeignTube(string tube, Round other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var number = TubeNames.Read(tube) is var (_, n) ? n : 0;
        return other.Find(number) is { } found
            ? T("round.is-a-tube-of-another-round", found.Name, Round(other.Number), ShortDay(other.Day), found.Animal)
            : T("round.was-never-labelled-has-no-such-tube", TubeNames.AsPrinted(tube), Round(other.Number));
    }

    public static string NoSuchTube(string tube) => T("round.was-never-labelled-in-this-herd-do", TubeNames.AsPrinted(tube));

    public static string Sent(int tubes) => T("round.sent-off", Number("common.count-tubes", tubes));

    public static string ReportExpected(Day day, LocalTime time) => T("round.the-report-is-expected", LongDay(day), Clock(time));

    public static string TickTubes => T("round.tick-the-tubes-that-leave");

    public static string ChooseAnimals => T("round.tick-an-animal-or-name-one");

    public static string NoDay => T("round.choose-the-day-of-the-round");

    public static string AllSettled => T("round.every-tube-of-this-round-is-settled");

    public static string ManifestNeeded => T("round.put-the-manifest-into-the-box");
}
