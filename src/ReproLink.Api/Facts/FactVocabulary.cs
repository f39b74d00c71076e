using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;

namespace ReproLink.Api.Facts;

/// <summary>The words facts are written with.</summary>
internal static class FactVocabulary
{
    /// <summary>Kinds that can be posted as facts; results have an address of their own.</summary>
    public static readonly Vocabulary<FactKind> Kinds = new(
        ("animal", FactKind.Animal), ("calving", FactKind.Calving), ("insemination", FactKind.Insemination),
        ("natural-service", FactKind.NaturalService), ("embryo-transfer", FactKind.EmbryoTransfer), ("exposure", FactKind.Exposure),
        ("oestrus", FactKind.Oestrus), ("loss", FactKind.Loss), ("treatment", FactKind.Treatment), ("examination", FactKind.Examination),
        ("do-not-breed", FactKind.DoNotBreed), ("breed-again", FactKind.BreedAgain), ("dry-off", FactKind.DryOff),
        ("arrival", FactKind.Arrival), ("departure", FactKind.Departure), ("sample", FactKind.Sample), ("confirm", FactKind.Confirm));

    public static readonly Vocabulary<Agent> Agents = new(
        ("gnrh", Agent.Gnrh), ("pgf", Agent.Pgf), ("insert-in", Agent.InsertIn), ("insert-out", Agent.InsertOut));

    public static readonly Vocabulary<TestMethod> Methods = new(
        ("blood", TestMethod.Blood), ("milk", TestMethod.Milk), ("ultrasound", TestMethod.Ultrasound), ("palpation", TestMethod.Palpation));

    public static readonly Vocabulary<TestMethod> ExaminationMethods = new(
        ("ultrasound", TestMethod.Ultrasound), ("palpation", TestMethod.Palpation));

    public static readonly Vocabulary<Outcome> Outcomes = new(
        ("pregnant", Outcome.Pregnant), ("open", Outcome.Open), ("recheck", Outcome.Recheck), ("invalid", Outcome.Invalid));

    public static readonly Vocabulary<Specimen> Specimens = new(
        ("serum", Specimen.Serum), ("plasma", Specimen.Plasma), ("whole-blood", Specimen.WholeBlood), ("milk", Specimen.Milk));

    /// <summary>The word of a kind; a result, which is posted elsewhere, is listed as <c>result</c>.</summary>
    public static string KindWord(FactKind kind) => kind == FactKind.Result ? "result" : Kinds.Word(kind);

    /// <summary>What a sample can be of.</summary>
    public enum Specimen
    {
        Serum,
        Plasma,
        WholeBlood,
        Milk,
    }
}
