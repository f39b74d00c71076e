using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Status;
using ReproLink.Records;
using ReproLink.Web.Results;

namespace ReproLink.Web.Words;

/// <content>Results: what they would do, what they did, whose they may be.</content>
public static partial class Say
{
    private const string Prostaglandin = "Prostaglandin stays withheld";

    public static string Of(Outcome outcome) => outcome switch
    {
        Outcome.Pregnant => "pregnant",
        Outcome.Open => "open",
        Outcome.Recheck => "inconclusive",
        _ => "spoiled",
    };

    public static string Becomes(ReceivedDecision decision) => decision switch
    {
        ReceivedDecision.Accepted => "taken in",
        ReceivedDecision.Replaced => "taken in, in the place of an earlier one",
        ReceivedDecision.Duplicate => "on record already",
        ReceivedDecision.Held => "waits for a person",
        _ => "cannot be read",
    };

    /// <summary>What a line does, in words a person acts on.</summary>
    public static string Effect(ResultRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row switch
        {
            { Since: { } since } => since,
            { Becomes: ReceivedDecision.Held } => $"Waits for a person. {Prostaglandin} from every animal it may mean.",
            { Becomes: ReceivedDecision.Rejected } => "Changes nothing: mend the line and send it again.",
            { Decides: Decision.Pregnant } => "Pregnant: no prostaglandin; what was planned to breed her again is cancelled.",
            { Decides: Decision.Open, Withheld: null } => "Open: her planned steps go on, prostaglandin among them.",
            { Decides: Decision.Open } => $"Open. {Withheld(row)}",
            { Decides: Decision.Recheck } => $"Inconclusive: treat her as pregnant. {Withheld(row)}{SampleAgain(row)}",
            { Says: Outcome.Invalid } => $"Spoiled: it says nothing about her. {Withheld(row)}{SampleAgain(row)}",
            _ => $"Decides nothing. {Withheld(row)}",
        };
    }

    private static string Withheld(ResultRow row) => row.Withheld is { } clause
        ? $"{Prostaglandin}: {GateWords.Sentence(clause)}."
        : "Nothing changes for her prostaglandin.";

    private static string SampleAgain(ResultRow row) => row.Again is { } window
        ? $" Sample her again from {ShortDay(window.Opens)}{(window.Closes is { } closes ? $" to {ShortDay(closes)}" : "")}."
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
        return $"{Count(rows.Count, "line", "lines")}: {taken} {(ahead ? "would be taken in" : "taken in")}, {known} on record already, {held} {(ahead ? "would wait" : "waiting")} for a person, {bad} {(ahead ? "cannot" : "could not")} be read.";
    }

    public static string Ended(HeldEnd end)
    {
        ArgumentNullException.ThrowIfNull(end);
        return end.Ending switch
        {
            HeldEnding.Assigned => $"assigned by {end.By}",
            HeldEnding.Dismissed => $"set aside by {end.By}: {end.Note}",
            HeldEnding.Released => "taken in by itself when its animal appeared",
            _ => "replaced by what its sender sent later",
        };
    }

    /// <summary>A property of a result as people call it.</summary>
    public static string Field(string property) => property switch
    {
        "animal" => "Animal",
        "tube" => "Tube",
        "sampled" => "Day drawn or examined",
        "time" => "Time",
        "reported" => "Reported",
        "method" => "Found by",
        "specimen" => "Specimen",
        "outcome" => "Result",
        "value" => "Value",
        "unit" => "Unit of the value",
        "assay" => "Assay",
        "corpusLuteum" => "Corpus luteum seen",
        "examiner" => "Examiner",
        "sourceId" => "Sender's number",
        "source" => "Sender",
        _ => property,
    };

    public static string Withdrawn(string? reason) => $"Withdrawn since{(string.IsNullOrEmpty(reason) ? "" : $": {reason}")}. It does not count.";

    public static string Assigned(string animal, ResultRow? row) => $"It is {animal}'s. {(row is null ? "" : Effect(row))}";

    public const string SetAside = "It is set aside, and withholds prostaglandin from nobody any more.";

    public const string WaitsAgain = "It waits again.";

    public const string NoAnswer = "It could not be read any more.";

    public const string Undone = "undone by hand";

    public const string ChooseFile = "Choose a file, or paste what it says.";

    public const string NoColumns = "Its columns are not ReproLink's own. Say who sent it, and which column is which: that is saved for the next time.";

    public const string WordsMean = "Say what the words of its result column mean.";

    public const string NameSender = "Say who sent it: a short name, the same each time.";

    public const string NothingStored = "Nothing is stored yet.";

    public const string ReadOtherwise = "What was sent is not read any more as it was shown. Look it over again.";
}
