using ReproLink.Calendar.Facts;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <summary>A fact in a few words.</summary>
public static class FactLine
{
    /// <summary>The words.</summary>
    public static string Of(Fact fact) => fact switch
    {
        Arrival => T("fact.arrived"),
        Calving => T("fact.calved"),
        Loss { Examined: true } => T("fact.lost-a-pregnancy-examined"),
        Loss => T("fact.lost-a-pregnancy-not-examined"),
        Oestrus => T("common.seen-in-oestrus"),
        Insemination { Sire: { } sire } => T("fact.inseminated", sire),
        Insemination => T("common.inseminated"),
        NaturalService => T("fact.served-by-a-bull"),
        EmbryoTransfer transfer => T("fact.embryo-transferred-days-old", transfer.EmbryoAgeDays),
        Exposure { Until: { } until } => T("fact.with-a-bull-until", Say.LongDay(until)),
        Exposure => T("fact.put-with-a-bull"),
        Sample { Specimen: { } specimen } => T("fact.sampled-specimen", specimen),
        Sample => T("fact.sampled"),
        TestResult result => result.Value is { } value
            ? T("fact.test-value", Say.Of(result.Method), Outcome(result.Outcome), value, result.Unit)
            : T("fact.test", Say.Of(result.Method), Outcome(result.Outcome)),
        Examination examination => $"{Say.Of(examination.Method)}: {Outcome(examination.Outcome)}",
        Treatment { NotDone: true } treatment => $"{NotDone(treatment.Agent)}{(treatment.Reason is { } reason ? $": {reason}" : "")}",
        Treatment treatment => Agent(treatment.Agent),
        DoNotBreed => T("fact.not-to-be-bred"),
        BreedAgain => T("fact.may-be-bred-again"),
        DryOff => T("common.dried-off"),
        Departure { Reason: { } reason } => T("fact.left-because", reason),
        Departure => T("fact.left"),
        Confirm confirm => T("fact.confirmed", confirm.ConfirmsSource, confirm.ConfirmsSourceId),
        _ => fact.Kind.ToString(),
    };

    private static string Outcome(Outcome? outcome) => outcome switch
    {
        Calendar.Facts.Outcome.Pregnant => T("common.pregnant"),
        Calendar.Facts.Outcome.Open => T("common.open"),
        Calendar.Facts.Outcome.Recheck => T("common.inconclusive"),
        Calendar.Facts.Outcome.Invalid => T("common.spoiled"),
        _ => T("fact.a-value-only"),
    };

    private static string NotDone(Agent agent) => agent switch
    {
        Calendar.Facts.Agent.Gnrh => T("fact.gnrh-not-given"),
        Calendar.Facts.Agent.Pgf => T("fact.prostaglandin-not-given"),
        Calendar.Facts.Agent.InsertIn => T("fact.progesterone-insert-not-placed"),
        _ => T("fact.progesterone-insert-not-taken-out"),
    };

    private static string Agent(Agent agent) => agent switch
    {
        Calendar.Facts.Agent.Gnrh => T("fact.gnrh-given"),
        Calendar.Facts.Agent.Pgf => T("fact.prostaglandin-given"),
        Calendar.Facts.Agent.InsertIn => T("common.progesterone-insert-placed"),
        _ => T("fact.progesterone-insert-taken-out"),
    };
}
