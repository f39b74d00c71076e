using ReproLink.Client;

namespace TypedClient;

/// <summary>The results of an invented laboratory: what it found in the blood of the first animals that are due.</summary>
internal static class BloodResults
{
    private static readonly TestResultInputOutcome[] Found =
        [TestResultInputOutcome.Open, TestResultInputOutcome.Pregnant, TestResultInputOutcome.Recheck];

    public static IReadOnlyList<TestResultInput> Of(BleedListAnswer list)
    {
        var today = list.AsOf;
        var due = list.Days.SelectMany(day => day.Animals)
            .Where(animal => animal.Need == BleedAnimalAnswerNeed.FirstTest && animal.Window?.Opens <= today);
        // Ids say which result it is: sent again another day, these are others.
        var results = due.Zip(Found, (animal, outcome) => Result($"{today:yyyyMMdd}-{animal.Animal}", today) with { Animal = animal.Animal, Outcome = outcome });
        return
        [
            .. results,
            // A tube nobody knows: it is held for a person, not dropped.
            Result($"{today:yyyyMMdd}-tube", today) with { Tube = "T-unknown", Outcome = TestResultInputOutcome.Open },
            // A slip of the pen: refused, and the others are stored all the same.
            Result($"{today:yyyyMMdd}-slip", today.AddYears(1)) with { Animal = "1042", Outcome = TestResultInputOutcome.Open },
        ];
    }

    private static TestResultInput Result(string sourceId, DateOnly sampled) => new()
    {
        Source = "org.example.laboratory",
        SourceId = sourceId,
        Sampled = sampled,
        Method = TestResultInputMethod.Blood,
        Specimen = "serum",
    };
}
