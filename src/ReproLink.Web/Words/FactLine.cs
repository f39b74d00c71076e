using ReproLink.Calendar.Facts;

namespace ReproLink.Web.Words;

/// <summary>A fact in a few words.</summary>
public static class FactLine
{
    /// <summary>The words.</summary>
    public static string Of(Fact fact) => fact switch
    {
        Arrival => "arrived",
        Calving => "calved",
        Loss { Examined: true } => "lost a pregnancy, examined",
        Loss => "lost a pregnancy, not examined",
        Oestrus => "seen in oestrus",
        Insemination { Sire: { } sire } => $"inseminated, {sire}",
        Insemination => "inseminated",
        NaturalService => "served by a bull",
        EmbryoTransfer transfer => $"embryo transferred, {transfer.EmbryoAgeDays} days old",
        Exposure { Until: { } until } => $"with a bull until {Say.LongDay(until)}",
        Exposure => "put with a bull",
        Sample { Specimen: { } specimen } => $"sampled, {specimen}",
        Sample => "sampled",
        TestResult result => $"{result.Method.ToString().ToLowerInvariant()} test: {Outcome(result.Outcome)}{(result.Value is { } value ? $" ({value} {result.Unit})" : "")}",
        Examination examination => $"{examination.Method.ToString().ToLowerInvariant()}: {Outcome(examination.Outcome)}",
        Treatment { NotDone: true } treatment => $"{NotDone(treatment.Agent)}{(treatment.Reason is { } reason ? $": {reason}" : "")}",
        Treatment treatment => Agent(treatment.Agent),
        DoNotBreed => "not to be bred",
        BreedAgain => "may be bred again",
        DryOff => "dried off",
        Departure { Reason: { } reason } => $"left: {reason}",
        Departure => "left",
        Confirm confirm => $"confirmed {confirm.ConfirmsSource} {confirm.ConfirmsSourceId}",
        _ => fact.Kind.ToString(),
    };

    private static string Outcome(Outcome? outcome) => outcome switch
    {
        Calendar.Facts.Outcome.Pregnant => "pregnant",
        Calendar.Facts.Outcome.Open => "open",
        Calendar.Facts.Outcome.Recheck => "inconclusive",
        Calendar.Facts.Outcome.Invalid => "spoiled",
        _ => "a value only",
    };

    private static string NotDone(Agent agent) => agent switch
    {
        Calendar.Facts.Agent.Gnrh => "GnRH not given",
        Calendar.Facts.Agent.Pgf => "prostaglandin not given",
        Calendar.Facts.Agent.InsertIn => "progesterone insert not placed",
        _ => "progesterone insert not taken out",
    };

    private static string Agent(Agent agent) => agent switch
    {
        Calendar.Facts.Agent.Gnrh => "GnRH given",
        Calendar.Facts.Agent.Pgf => "prostaglandin given",
        Calendar.Facts.Agent.InsertIn => "progesterone insert placed",
        _ => "progesterone insert taken out",
    };
}
