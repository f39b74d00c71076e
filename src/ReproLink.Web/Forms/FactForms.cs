using ReproLink.Calendar.Facts;

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
    private static readonly FormField Date = new("date", "Day", FieldType.Date) { Required = true };
    private static readonly FormField Time = new("time", "Time", FieldType.Time) { Hint = "may stay empty" };
    private static readonly FormField Sire = new("sire", "Sire");
    private static readonly FormField SireBreed = new("sireBreed", "The sire's breed");
    private static readonly FormField Technician = new("technician", "Who did it");
    private static readonly FormField Reason = new("reason", "Why");

    private static readonly (string, string)[] YesNo = [("yes", "yes"), ("no", "no")];

    /// <summary>All forms.</summary>
    public static readonly IReadOnlyList<FactForm> All =
    [
        new("insemination", "Inseminated", [Date, Time, Sire, SireBreed, Technician]),
        new("natural-service", "Served by a bull", [Date, Time, Sire, SireBreed]),
        new("embryo-transfer", "Embryo transferred",
            [Date, Time, new("embryoAgeDays", "Age of the embryo in days", FieldType.Number) { Hint = "empty = 7" }, new("embryoBreed", "The embryo's breed"), Sire, SireBreed, Technician]),
        new("exposure", "Running with a bull", [Date with { Label = "First day" }, new("until", "Last day", FieldType.Date) { Hint = "empty = he is still in" }, Sire, SireBreed]),
        new("oestrus", "Seen in oestrus", [Date, Time]),
        new("sample", "Blood or milk drawn",
            [Date, Time, new("specimen", "What was taken", FieldType.Choice) { Choices = [("serum", "serum"), ("plasma", "plasma"), ("whole-blood", "whole blood"), ("milk", "milk")] }, new("tube", "Tube")])
            { Hint = "Tubes of a sampling round are recorded in the round." },
        new("examination", "Examined",
            [
                Date, Time,
                new("method", "How", FieldType.Choice) { Required = true, Choices = [("ultrasound", "ultrasound"), ("palpation", "palpation")] },
                new("outcome", "Finding", FieldType.Choice) { Required = true, Choices = [("pregnant", "pregnant"), ("open", "open"), ("recheck", "not sure: look again"), ("invalid", "could not be judged")] },
                new("corpusLuteum", "Corpus luteum seen", FieldType.Choice) { Choices = YesNo },
                new("examiner", "Who examined her"),
            ]),
        new("treatment", "Hormone given, or a step not done",
            [
                Date, Time,
                new("agent", "What", FieldType.Choice)
                {
                    Required = true,
                    Choices = [("gnrh", "GnRH"), ("pgf", "prostaglandin"), ("insert-in", "progesterone insert placed"), ("insert-out", "progesterone insert taken out")],
                },
                new("notDone", "Was it left undone?", FieldType.Choice) { Choices = [("no", "no, it was done"), ("yes", "yes, the planned step was not done")] },
                new("reason", "Why it was not done") { Hint = "only for a step not done" },
            ]) { Hint = "Say what happened. Writing it here is not a permission: prostaglandin is given only where the day's work releases it." },
        new("calving", "Calved", [Date, Time]),
        new("loss", "Lost a pregnancy", [Date, Time, new("examined", "Found by an examination", FieldType.Choice) { Choices = YesNo }]),
        new("dry-off", "Dried off", [Date]),
        new("do-not-breed", "Not to be bred", [Date, Reason]),
        new("breed-again", "May be bred again", [Date]),
        new("arrival", "Arrived", [Date]),
        new("departure", "Left the herd", [Date, Reason with { Hint = "sold, died …" }]),
        new("confirm", "Declare a fact right",
            [new("confirms", "Which fact is right", FieldType.Choice) { Required = true }, Reason with { Label = "How you know" }])
            { Hint = "Ends a contradiction about a calving: a manager or veterinarian says that the fact is right." },
        new("animal", "Her card",
            [
                new("date", "Card of", FieldType.Date), new("pen", "Pen"), new("parity", "Calvings so far", FieldType.Number) { Hint = "0 = a heifer" },
                new("breed", "Breed"), new("born", "Born", FieldType.Date), new("identifiers", "Identifiers") { Hint = "scheme=number; scheme=number" },
            ]) { Hint = "The latest card counts as a whole: change what is new and leave the rest." },
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
