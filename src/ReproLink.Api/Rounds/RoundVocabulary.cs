using System.Globalization;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Api.Rounds;

/// <summary>The words rounds are written with.</summary>
internal static class RoundVocabulary
{
    public static readonly Vocabulary<TubeState> States = new(
        ("planned", TubeState.Planned), ("drawn", TubeState.Drawn), ("short", TubeState.Short), ("not-drawn", TubeState.NotDrawn), ("broken", TubeState.Broken));

    public static readonly Vocabulary<NotDrawnReason> Reasons = new(
        ("not-found", NotDrawnReason.NotFound), ("refused", NotDrawnReason.Refused), ("no-flow", NotDrawnReason.NoFlow),
        ("out-of-order", NotDrawnReason.OutOfOrder), ("ill", NotDrawnReason.Ill), ("gone", NotDrawnReason.Gone), ("other", NotDrawnReason.Other));

    public static string Word(RoundState state) => state switch
    {
        RoundState.Planned => "planned",
        RoundState.Drawing => "drawing",
        RoundState.Drawn => "drawn",
        RoundState.Dispatched => "dispatched",
        _ => "answered",
    };

    public static string Name(int round) => string.Create(CultureInfo.InvariantCulture, $"R{round}");

    /// <summary>A round as people write it, R12 or 12; null = it is none.</summary>
    public static int? Round(string text) =>
        int.TryParse(text.AsSpan(text.StartsWith('R') || text.StartsWith('r') ? 1 : 0), NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0
            ? number
            : null;

    /// <summary>A tube of a round as people write it, R12-003 or 3; null = it is none of that round.</summary>
    public static int? Tube(int round, string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0 ? number
        : TubeNames.Read(text) is { } name && name.Round == round ? name.Number
        : null;

    /// <summary>What the laboratory is asked, for the manifest.</summary>
    public static string Question(string? need) => need switch
    {
        "first-test" => "Pregnant or open? First test after the service.",
        "resample" => "Pregnant or open? Second sample, the first gave no answer.",
        "resolve-conflict" => "Pregnant or open? Earlier findings disagree.",
        "caution-retest" => "Pregnant or open? The earlier test fell before day 90 in milk.",
        "confirmation" => "Still pregnant?",
        _ => "Pregnant or open?",
    };
}
