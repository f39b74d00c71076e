using NodaTime;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Api.Programmes;

/// <summary>The words programmes are written with.</summary>
internal static class ProgrammeVocabulary
{
    public static readonly Vocabulary<IsoDayOfWeek> Weekdays = new(
        ("monday", IsoDayOfWeek.Monday), ("tuesday", IsoDayOfWeek.Tuesday), ("wednesday", IsoDayOfWeek.Wednesday),
        ("thursday", IsoDayOfWeek.Thursday), ("friday", IsoDayOfWeek.Friday), ("saturday", IsoDayOfWeek.Saturday), ("sunday", IsoDayOfWeek.Sunday));

    public static readonly Vocabulary<TestMethod> TestMethods = new(("blood", TestMethod.Blood), ("milk", TestMethod.Milk));

    public static readonly Vocabulary<OpenAfterPregnant> OpenAfterPregnant = new(
        ("confirm", Calendar.Programmes.OpenAfterPregnant.Confirm), ("accept", Calendar.Programmes.OpenAfterPregnant.Accept));

    public static readonly Vocabulary<LaboratoryKind> LaboratoryKinds = new(
        ("laboratory", LaboratoryKind.Laboratory), ("on-farm", LaboratoryKind.OnFarm));

    public static readonly Vocabulary<StartRule> Starts = new(("before-result", StartRule.BeforeResult), ("at-result", StartRule.AtResult));

    public static readonly Vocabulary<Recording> Recordings = new(("assumed", Recording.Assumed), ("recorded", Recording.Recorded));
}
