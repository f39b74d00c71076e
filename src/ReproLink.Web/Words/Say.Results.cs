using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Status;
using ReproLink.Records;
using ReproLink.Web.Results;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <content>Results: what they would do, what they did, whose they may be.</content>
public static partial class Say
{
    public static string Of(TestMethod method) => T("method." + method.ToString().ToLowerInvariant());

    public static string Of(Outcome outcome) => outcome switch
    {
        Outcome.Pregnant => T("common.pregnant"),
        Outcome.Open => T("common.open"),
        Outcome.Recheck => T("common.inconclusive"),
        _ => T("common.spoiled"),
    };

    public static string Becomes(ReceivedDecision decision) => decision switch
    {
        ReceivedDecision.Accepted => T("results.becomes-taken-in"),
        ReceivedDecision.Replaced => T("results.taken-in-in-the-place"),
        ReceivedDecision.Duplicate => T("results.becomes-on-record-already"),
        ReceivedDecision.Held => T("results.waits-for-a-person"),
        _ => T("results.becomes-cannot-be-read"),
    };

    /// <summary>What a line does, in words a person acts on.</summary>
    public static string Effect(ResultRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row switch
        {
            { Since: { } since } => since,
            { Becomes: ReceivedDecision.Held } => T("results.effect-held"),
            { Becomes: ReceivedDecision.Rejected } => T("results.changes-nothing-mend-the-line"),
            { Decides: Decision.Pregnant } => T("results.pregnant-no-prostaglandin-what"),
            { Decides: Decision.Open, Withheld: null } => T("results.open-her-planned-steps-go"),
            { Decides: Decision.Open } => $"{T("results.effect-open")} {Withheld(row)}",
            { Decides: Decision.Recheck } => $"{T("results.effect-recheck")} {Withheld(row)}{SampleAgain(row)}",
            { Says: Outcome.Invalid } => $"{T("results.effect-spoiled")} {Withheld(row)}{SampleAgain(row)}",
            _ => $"{T("results.effect-nothing")} {Withheld(row)}",
        };
    }

    private static string Withheld(ResultRow row) => row.Withheld is { } clause
        ? T("results.withheld", GateWords.Sentence(clause))
        : T("results.nothing-changes");

    private static string SampleAgain(ResultRow row) => row.Again is { } window
        ? " " + (window.Closes is { } closes ? T("results.sample-again-to", ShortDay(window.Opens), ShortDay(closes)) : T("results.sample-again", ShortDay(window.Opens)))
        : "";

    public static string Counted(IReadOnlyCollection<ResultRow> rows, bool ahead)
    {
        ArgumentNullException.ThrowIfNull(rows);
        int Of(params ReadOnlySpan<ReceivedDecision> these)
        {
            var count = 0;
            foreach (var one in these)
            {
                count += rows.Count(r => r.Becomes == one);
            }

            return count;
        }

        var (taken, known, held, bad) = (Of(ReceivedDecision.Accepted, ReceivedDecision.Replaced), Of(ReceivedDecision.Duplicate), Of(ReceivedDecision.Held), Of(ReceivedDecision.Rejected));
        return Number(ahead ? "results.counted-ahead" : "results.counted", rows.Count, taken, known, held, bad);
    }

    public static string Ended(HeldEnd end)
    {
        ArgumentNullException.ThrowIfNull(end);
        return end.Ending switch
        {
            HeldEnding.Assigned => T("results.ended-assigned", end.By),
            HeldEnding.Dismissed => T("results.ended-set-aside", end.By, end.Note),
            HeldEnding.Released => T("results.taken-in-by-itself-when-its-animal"),
            _ => T("results.replaced-by-what-its-sender-sent"),
        };
    }

    /// <summary>A property of a result as people call it.</summary>
    public static string Field(string property) => property switch
    {
        "animal" => T("common.animal"),
        "tube" => T("common.tube"),
        "sampled" => T("results.day-drawn-or-examined"),
        "time" => T("common.time"),
        "reported" => T("results.reported"),
        "method" => T("results.found"),
        "specimen" => T("results.specimen"),
        "outcome" => T("results.result"),
        "value" => T("common.value"),
        "unit" => T("results.unit-of-the-value"),
        "assay" => T("results.assay"),
        "corpusLuteum" => T("common.corpus-luteum-seen"),
        "examiner" => T("results.examiner"),
        "sourceId" => T("results.senders-number"),
        "source" => T("results.sender"),
        _ => property,
    };

    public static string Withdrawn(string? reason) => string.IsNullOrEmpty(reason) ? T("results.withdrawn") : T("results.withdrawn-because", reason);

    public static string Assigned(string animal, ResultRow? row) => row is null ? T("results.assigned", animal) : $"{T("results.assigned", animal)} {Effect(row)}";

    public static string SetAside => T("results.it-is-set-aside-and-withholds");

    public static string WaitsAgain => T("results.it-waits-again");

    public static string NoAnswer => T("results.it-could-not-be-read-any-more");

    public static string Undone => T("results.undone-by-hand");

    public static string ChooseFile => T("results.choose-a-file-or-paste-what");

    public static string NoColumns => T("results.its-columns-are-not-reprolinks-own");

    public static string WordsMean => T("results.say-what-the-words-of-its-result");

    public static string NameSender => T("results.say-who-sent-it-a-short-name");

    public static string NothingStored => T("results.nothing-is-stored-yet");

    public static string ReadOtherwise => T("results.what-was-sent-is-not-read-any");
}
