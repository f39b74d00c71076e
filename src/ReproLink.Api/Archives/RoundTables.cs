using ReproLink.Api.Rounds;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>Sampling rounds: the lists, the tubes, what happened to them, and what left.</summary>
internal static class RoundTables
{
    public static readonly string[] Rounds = ["order", "round", "date", "name", "specimen", "createdBy", "recordedAt"];

    public static readonly string[] Tubes = ["order", "tube", "animal", "pen", "need", "daysPostService", "redraws", "addedBy", "recordedAt"];

    public static readonly string[] Events = ["order", "tube", "state", "date", "time", "by", "reason", "dispatch", "recordedAt"];

    public static readonly string[] Dispatches = ["order", "round", "dispatch", "at", "sentBy", "recordedAt"];

    private const string Left = "dispatched";

    public static string?[] Write(KeptRound kept) =>
    [
        ArchiveText.Of(kept.Order), RoundVocabulary.Name(kept.Round), ArchiveText.Of(kept.Day), kept.Name, kept.Specimen, kept.By, ArchiveText.Of(kept.At),
    ];

    public static string?[] Write(KeptTube kept) =>
    [
        ArchiveText.Of(kept.Order), TubeNames.Of(kept.Round, kept.Number), kept.Plan.Animal, kept.Plan.Pen, kept.Plan.Need, ArchiveText.Of(kept.Plan.DaysPostService),
        ArchiveText.Of(kept.Redraws), kept.By, ArchiveText.Of(kept.At),
    ];

    public static string?[] Write(KeptTubeEvent kept)
    {
        var (mark, left) = (kept.Event as TubeMarked, kept.Event as TubeDispatched);
        return
        [
            ArchiveText.Of(kept.Order), TubeNames.Of(kept.Round, kept.Number), mark is null ? Left : RoundVocabulary.States.Word(mark.State),
            ArchiveText.Of(mark?.Day ?? left!.Day), ArchiveText.Of(mark?.Time), kept.By, mark?.Reason is { } reason ? RoundVocabulary.Reasons.Word(reason) : null,
            ArchiveText.Of(left?.Dispatch), ArchiveText.Of(kept.At),
        ];
    }

    public static string?[] Write(KeptDispatch kept) =>
    [
        ArchiveText.Of(kept.Order), RoundVocabulary.Name(kept.Round), ArchiveText.Of(kept.Number), ArchiveText.Of(kept.Left), kept.By, ArchiveText.Of(kept.At),
    ];

    public static KeptRound ReadRound(ArchiveLine line) => new(
        line.Whole("order"), RoundOf(line), line.DayOf("date"), line.WordsOf("name"), line.WordsOf("specimen") ?? "", line.By("createdBy"), line.Moment("recordedAt"));

    public static KeptTube ReadTube(ArchiveLine line)
    {
        var (round, number) = TubeOf(line);
        return new KeptTube(
            line.Whole("order"), round, number, new TubePlan(line.NameOf("animal"), line.WordsOf("pen"), line.WordsOf("need"), line.WholeOrNull("daysPostService")),
            line.WholeOrNull("redraws"), line.By("addedBy"), line.Moment("recordedAt"));
    }

    public static KeptTubeEvent ReadEvent(ArchiveLine line)
    {
        var (round, number) = TubeOf(line);
        var (by, at, day) = (line.WordsOf("by"), line.Moment("recordedAt"), line.DayOf("date"));
        TubeEvent happened = line.Raw("state") == Left
            ? new TubeDispatched(at, line.Whole("dispatch"), day)
            : new TubeMarked(at, line.Word("state", RoundVocabulary.States), day)
            {
                Time = line.Time("time"),
                By = by,
                Reason = line.WordOrNull("reason", RoundVocabulary.Reasons),
            };
        return new KeptTubeEvent(line.Whole("order"), round, number, happened, by);
    }

    public static KeptDispatch ReadDispatch(ArchiveLine line) => new(
        line.Whole("order"), RoundOf(line), line.Whole("dispatch"), line.Moment("at"), line.WordsOf("sentBy") ?? "", line.Moment("recordedAt"));

    private static int RoundOf(ArchiveLine line)
    {
        if (RoundVocabulary.Round(line.Raw("round")) is { } round)
        {
            return round;
        }

        line.Refuse("round", "a round, such as R12");
        return 0;
    }

    private static (int Round, int Number) TubeOf(ArchiveLine line)
    {
        if (TubeNames.Read(line.Raw("tube")) is var (round, number))
        {
            return (round, number);
        }

        line.Refuse("tube", "a tube, such as R12-003");
        return default;
    }
}
