namespace ReproLink.Calendar.Rounds;

/// <summary>One line of the checklist.</summary>
/// <param name="When">The moment: <c>before</c>, <c>each-cow</c>, <c>after</c>.</param>
/// <param name="Text">What to do.</param>
/// <param name="Basis">Where it comes from: a published source, or common practice.</param>
public sealed record ChecklistLine(string When, string Text, string Basis);

/// <summary>The trade's practice at the chute, in our words. Nothing here is a rule of the calendar.</summary>
public static class Checklist
{
    private const string Practice = "common practice";

    /// <summary>The lines, in the order of the work.</summary>
    public static readonly IReadOnlyList<ChecklistLine> Lines =
    [
        new("before", "Print the labels, and lay the tubes out in the order of the list.", Practice),
        new("before", "Use the tube the laboratory asks for, plain serum or EDTA plasma, and stay with one kind: values differ between them. Never a citrate tube.",
            "Stahmann and others 2015, J Agric Sci 7(10):40 (citrate lowers the value)"),
        new("each-cow", "Read her tag before you draw and say the number aloud: tag, list and label must agree.", Practice),
        new("each-cow", "A new needle for every animal: blood left in a needle changes the next result and carries infection.",
            "Erskine and others 2012, J Dairy Res (needle reuse and bovine leukaemia virus); common practice"),
        new("each-cow", "The used needle goes straight into the sharps container, never recapped.", "common practice for sharps"),
        new("each-cow", "Fill to the middle of the label: that is enough for most tests. Mark a tube with less as short.", Practice),
        new("each-cow", "Label the tube before the next cow comes.", "common practice of diagnostic laboratories"),
        new("each-cow", "Never draw a cow into another cow's tube. If it happened, mark that tube broken and draw again into a new one.", Practice),
        new("after", "Let serum tubes clot for 1 to 2 hours at room temperature before they are cooled.", Practice),
        new("after", "Stand the tubes upright, in a box with dividers, in the order of the list.", "common practice of diagnostic laboratories"),
        new("after", "Cool, do not freeze whole blood: freezing lowers the value of pregnant animals and blurs low ones.",
            "Stahmann and others 2015, J Agric Sci 7(10):40"),
        new("after", "Put the manifest into the box, and send it on the next dispatch day: after 14 days a sample decides nothing.", "common practice of diagnostic laboratories"),
    ];
}
