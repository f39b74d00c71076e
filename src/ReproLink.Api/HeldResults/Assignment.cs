using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Rounds;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Api.HeldResults;

/// <summary>A person's word on whose result it is, checked against what the labels say.</summary>
internal sealed class Assignment(HerdRequest request, HerdView view, TubeRegister register)
{
    private readonly HerdIndex _index = HerdIndex.Of(view);

    public (FactDraft? Draft, Problem? Refusal) Read(ObjectReader reader, ReceivedResult said)
    {
        var animal = reader.Text("animal", TextRule.Name, required: true);
        var tube = reader.Text("tube", TextRule.Name);
        var sampled = new Door(request).Past(reader, "sampled");
        var outcome = reader.Word("outcome", FactVocabulary.Outcomes);
        if (animal is not null && RoundsAnimal(animal) is false)
        {
            reader.Refuse("animal", ProblemTypes.AnimalNotFound, "the herd's own name of an animal");
        }

        var fact = sampled is { } day ? said.Fact with { Day = day } : said.Fact;
        fact = fact is TestResult result ? Completed(reader, result, tube ?? said.Tube, outcome) : Examined(reader, fact);
        reader.Done();
        if (reader.Problems.Any)
        {
            return (null, Problem.OfBody(reader.Problems.List));
        }

        return fact is TestResult { Tube: { } named } && Contradiction(animal!, named, fact) is { } contradiction
            ? (null, Problem.Of(ProblemTypes.AssignmentContradicts, contradiction))
            : (new FactDraft(animal!, fact), null);
    }

    private bool RoundsAnimal(string animal) => view.Find(animal) is { Exists: true };

    private TestResult Completed(ObjectReader reader, TestResult result, string? tube, Outcome? outcome)
    {
        if (outcome is not null && result.Outcome is not null)
        {
            reader.Refuse("outcome", ProblemTypes.InvalidValue, "only where the result came without one");
        }

        result = result with { Tube = tube is null ? null : TubeNames.AsPrinted(tube) is var printed && register.Find(TubeNames.Read(printed)?.Round ?? 0) is null ? tube : printed };
        if (result.Outcome is null && outcome is null && Values.FromValue(result, view.Rules) is null)
        {
            reader.Refuse("outcome", ProblemTypes.MissingProperty, FactVocabulary.Outcomes.Allowed,
                "It came without an outcome and its value cannot be judged: say what it means, or dismiss it.");
        }

        return outcome is null ? result : result with { Outcome = outcome };
    }

    private static Fact Examined(ObjectReader reader, Fact fact)
    {
        foreach (var name in new[] { "tube", "outcome" })
        {
            if (reader.Has(name))
            {
                reader.Refuse(name, ProblemTypes.InvalidValue, "only for blood and milk");
            }
        }

        return fact;
    }

    private string? Contradiction(string animal, string tube, Fact fact)
    {
        if (TubeNames.Read(tube) is not var (number, position) || register.Find(number) is not { } round)
        {
            var inTube = _index.WithTube(tube, fact.Day);
            return inTube.Count > 0 && inTube.All(a => a.Animal != animal)
                ? $"The tube '{tube}' holds blood of {string.Join(", ", inTube.Select(a => a.Animal))}, not of {animal}."
                : null;
        }

        return round.Find(position) switch
        {
            null => $"Round R{number} has no tube '{tube}'.",
            { } label when label.Animal != animal => $"The label of {label.Name} is that of {label.Animal}, not of {animal}.",
            { Standing: { HasBlood: true, Marked: { } drawn } } label => drawn.Day == fact.Day
                ? null
                : $"{label.Name} was drawn on {drawn.Day}, and the result says {fact.Day}: send the day as 'sampled'.",
            { } label => $"{label.Name} is not recorded as drawn: record the draw first.",
        };
    }
}
