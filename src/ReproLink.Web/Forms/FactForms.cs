using ReproLink.Calendar.Facts;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Forms;

/// <summary>A kind of fact that can be added on an animal's page, with only its own fields.</summary>
/// <param name="Kind">The kind as posted.</param>
/// <param name="Title">What happened, in a few words.</param>
/// <param name="Fields">Its fields.</param>
public sealed record FactForm(string Kind, string Title, IReadOnlyList<FormField> Fields)
{
    /// <summary>A sentence before the fields; absent = none.</summary>
    public string? Hint { get; init; }
}

/// <summary>The forms, in the order in which they are offered.</summary>
public static class FactForms
{
    private static FormField Date => new("date", T("common.day"), FieldType.Date) { Required = true };
    private static FormField Time => new("time", T("common.time"), FieldType.Time) { Hint = T("addFact.may-stay-empty") };
    private static FormField Sire => new("sire", T("common.sire"));
    private static FormField SireBreed => new("sireBreed", T("addFact.the-sires-breed"));
    private static FormField Technician => new("technician", T("addFact.who-did"));
    private static FormField Reason => new("reason", T("common.why"));

    private static (string, string)[] YesNo => [("yes", T("addFact.yes")), ("no", T("addFact.no"))];

    /// <summary>All forms.</summary>
    public static IReadOnlyList<FactForm> All =>
    [
        new("insemination", T("addFact.inseminated"), [Date, Time, Sire, SireBreed, Technician]),
        new("natural-service", T("addFact.served-by-a-bull"), [Date, Time, Sire, SireBreed]),
        new("embryo-transfer", T("addFact.embryo-transferred"),
            [Date, Time, new("embryoAgeDays", T("addFact.age-of-the-embryo-in-days"), FieldType.Number) { Hint = T("addFact.empty-7") }, new("embryoBreed", T("addFact.the-embryos-breed")), Sire, SireBreed, Technician]),
        new("exposure", T("addFact.running-with-a-bull"), [Date with { Label = T("common.first-day") }, new("until", T("addFact.last-day"), FieldType.Date) { Hint = T("addFact.empty-he-is-still") }, Sire, SireBreed]),
        new("oestrus", T("addFact.seen-in-oestrus"), [Date, Time]),
        new("sample", T("addFact.blood-or-milk-drawn"),
            [Date, Time, new("specimen", T("addFact.what-was-taken"), FieldType.Choice) { Choices = [("serum", T("addFact.serum")), ("plasma", T("common.plasma")), ("whole-blood", T("common.whole-blood")), ("milk", T("common.milk"))] }, new("tube", T("common.tube"))])
            { Hint = T("addFact.tubes-of-a-sampling-round-are") },
        new("examination", T("addFact.examined"),
            [
                Date, Time,
                new("method", T("addFact.how"), FieldType.Choice) { Required = true, Choices = [("ultrasound", T("common.ultrasound")), ("palpation", T("common.palpation"))] },
                new("outcome", T("addFact.finding"), FieldType.Choice) { Required = true, Choices = [("pregnant", T("common.pregnant")), ("open", T("common.open")), ("recheck", T("addFact.not-sure-look-again")), ("invalid", T("addFact.could-not-be-judged"))] },
                new("corpusLuteum", T("common.corpus-luteum-seen"), FieldType.Choice) { Choices = YesNo },
                new("examiner", T("addFact.who-examined")),
            ]),
        new("treatment", T("addFact.hormone-given-or-a-step-not-done"),
            [
                Date, Time,
                new("agent", T("common.what"), FieldType.Choice)
                {
                    Required = true,
                    Choices = [("gnrh", T("common.gnrh")), ("pgf", T("addFact.prostaglandin")), ("insert-in", T("common.progesterone-insert-placed")), ("insert-out", T("addFact.progesterone-insert-taken-out"))],
                },
                new("notDone", T("addFact.was-it-left-undone"), FieldType.Choice) { Choices = [("no", T("addFact.no-it-was-done")), ("yes", T("addFact.yes-the-planned-step-was-not-done"))] },
                new("reason", T("addFact.why-it-was-not-done")) { Hint = T("addFact.only-for-a-step-not-done") },
            ]) { Hint = T("addFact.say-what-happened-writing-it-here") },
        new("calving", T("addFact.calved"), [Date, Time]),
        new("loss", T("addFact.lost-a-pregnancy"), [Date, Time, new("examined", T("addFact.found-by-an-examination"), FieldType.Choice) { Choices = YesNo }]),
        new("dry-off", T("addFact.dried-off"), [Date]),
        new("do-not-breed", T("addFact.not-to-be-bred"), [Date, Reason]),
        new("breed-again", T("addFact.may-be-bred-again"), [Date]),
        new("arrival", T("addFact.arrived"), [Date]),
        new("departure", T("addFact.left-the-herd"), [Date, Reason with { Hint = T("addFact.sold-died") }]),
        new("confirm", T("addFact.declare-a-fact-right"),
            [new("confirms", T("addFact.which-fact-is-right"), FieldType.Choice) { Required = true }, Reason with { Label = T("addFact.how-you-know") }])
            { Hint = T("addFact.ends-a-contradiction-about-a-calving") },
        new("animal", T("addFact.her-card"),
            [
                new("date", T("addFact.card"), FieldType.Date), new("pen", T("common.pen")), new("parity", T("addFact.calvings-so-far"), FieldType.Number) { Hint = T("addFact.0-a-heifer") },
                new("breed", T("addFact.breed")), new("born", T("addFact.born"), FieldType.Date), new("identifiers", T("addFact.identifiers")) { Hint = T("addFact.scheme-number-scheme-number") },
            ]) { Hint = T("addFact.the-latest-card-counts-as-a-whole") },
    ];

    /// <summary>The form of a kind; null = there is none.</summary>
    public static FactForm? Find(string? kind) => All.FirstOrDefault(f => f.Kind == kind);

    /// <summary>What a card form is filled with beforehand: the card that counts now.</summary>
    public static IReadOnlyDictionary<string, string> Of(AnimalCard? card) => new Dictionary<string, string>
    {
        ["pen"] = card?.Pen ?? "",
        ["parity"] = card?.Parity is { } parity ? Words.SayWork.Number(parity) : "",
        ["breed"] = card?.Breed ?? "",
        ["born"] = card?.Born?.ToString() ?? "",
        ["identifiers"] = string.Join("; ", (card?.Identifiers ?? []).Select(i => $"{i.Scheme}={i.Id}")),
    };
}
