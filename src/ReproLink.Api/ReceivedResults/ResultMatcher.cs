using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>Whose result it is, or why that cannot be said: then it is held, never guessed and never dropped.</summary>
/// <param name="Animal">The animal it is tied to, or the one its text names.</param>
/// <param name="HeldFor">Why it is held; null = it is tied.</param>
/// <param name="MayMean">Other animals it may mean: their gates close while it is held (rule S4).</param>
internal sealed record Match(string? Animal, string? HeldFor, IReadOnlyList<string> MayMean)
{
    public static Match To(AnimalState animal) => new(animal.Animal, null, []);

    public static Match Held(string reason, string? animal, IEnumerable<AnimalState> mayMean) =>
        new(animal, reason, [.. mayMean.Select(a => a.Animal).Where(a => a != animal)]);
}

/// <summary>Ties results to animals.</summary>
internal sealed class ResultMatcher(HerdView view)
{
    public const string UnknownTube = "unknown-tube";
    public const string Mismatch = "tube-animal-mismatch";
    public const string NoSample = "no-sample-on-record";
    public const string Ambiguous = "ambiguous-identifier";
    public const string AssayUnknown = "assay-unknown";

    private readonly HerdIndex _index = HerdIndex.Of(view);

    public Match Tie(ReceivedResult result)
    {
        var match = result.Animal is { } name ? ByAnimal(result, name) : ByTube(result, result.Tube!);
        if (!CanBeJudged(result.Fact))
        {
            return match with { HeldFor = match.HeldFor is null or HeldDraft.UnknownAnimal ? AssayUnknown : match.HeldFor };
        }

        return match is { HeldFor: null, Animal: { } animal } && NeedsSample(result.Fact, view.Find(animal)!)
            ? match with { HeldFor = NoSample }
            : match;
    }

    private Match ByAnimal(ReceivedResult result, string name)
    {
        IReadOnlyList<AnimalState> named = view.Find(name) is { } own ? [own] : _index.WithIdentifier(name);
        if (named.Count > 1)
        {
            return Match.Held(Ambiguous, name, named);
        }

        if (result.Tube is { } tube && _index.WithTube(tube, result.Fact.Day) is { Count: > 0 } inTube && !inTube.Intersect(named).Any())
        {
            return Match.Held(Mismatch, named.Count == 1 ? named[0].Animal : name, inTube);
        }

        return named.Count == 1 ? Match.To(named[0]) : new Match(name, HeldDraft.UnknownAnimal, []);
    }

    private Match ByTube(ReceivedResult result, string tube)
    {
        var inTube = _index.WithTube(tube, result.Fact.Day);
        return inTube switch
        {
            [] => new Match(null, UnknownTube, []),
            [var only] when HerdIndex.HasSample(only, result.Fact.Day) => Match.To(only),
            // The tube is known, but nobody drew it that day: the day or the tube is wrong.
            [var only] => Match.Held(NoSample, only.Animal, []),
            _ => Match.Held(Ambiguous, null, inTube),
        };
    }

    // Rule T8: without an outcome the cut-offs must be able to judge the value; nothing is converted.
    private bool CanBeJudged(Fact fact) => fact is not TestResult { Outcome: null } result || Values.FromValue(result, view.Rules) is not null;

    private bool NeedsSample(Fact fact, AnimalState animal) =>
        fact is TestResult
        && animal.GoverningProgramme(view.Rules, fact.Day).RequireRounds
        && !HerdIndex.HasSample(animal, fact.Day);
}
