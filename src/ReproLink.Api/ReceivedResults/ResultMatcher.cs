using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Rounds;
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
    /// <summary>The tube of a round, as printed.</summary>
    public string? Tube { get; init; }

    public static Match To(AnimalState animal) => new(animal.Animal, null, []);

    public static Match Held(string reason, string? animal, IEnumerable<string> mayMean) =>
        new(animal, reason, [.. mayMean.Where(a => a != animal).Distinct(StringComparer.Ordinal)]);
}

/// <summary>Ties results to animals.</summary>
/// <param name="view">The herd.</param>
/// <param name="register">The tubes of its rounds: a label says whose blood is in it, before and whatever else is said.</param>
internal sealed class ResultMatcher(HerdView view, TubeRegister register)
{
    public const string UnknownTube = "unknown-tube";
    public const string Mismatch = "tube-animal-mismatch";
    public const string NoSample = "no-sample-on-record";
    public const string Ambiguous = "ambiguous-identifier";
    public const string AssayUnknown = "assay-unknown";

    private readonly HerdIndex _index = HerdIndex.Of(view);

    public Match Tie(ReceivedResult result)
    {
        var match = Whose(result);
        if (!CanBeJudged(result.Fact))
        {
            return match with { HeldFor = match.HeldFor is null or HeldDraft.UnknownAnimal ? AssayUnknown : match.HeldFor };
        }

        return match is { HeldFor: null, Animal: { } animal } && NeedsSample(result.Fact, view.Find(animal)!)
            ? match with { HeldFor = NoSample }
            : match;
    }

    private Match Whose(ReceivedResult result)
    {
        if (result.Tube is { } tube && TubeNames.Read(tube) is var (number, position) && register.Find(number) is { } round)
        {
            return round.Find(position) is { } label ? ByLabel(result, label) : WithoutLabel(result);
        }

        return result.Animal is { } name ? ByAnimal(result, name) : ByTube(result, result.Tube!);
    }

    // The label is of a round of ours, and the tube never was: whatever is named beside it, something is wrong.
    private Match WithoutLabel(ReceivedResult result)
    {
        var named = result.Animal is { } name ? _index.Named(name) : [];
        return Match.Held(UnknownTube, named.Count == 1 ? named[0].Animal : result.Animal, named.Select(a => a.Animal));
    }

    private Match ByLabel(ReceivedResult result, Tube label)
    {
        if (result.Animal is { } name)
        {
            var named = _index.Named(name);
            if (named.Count > 1)
            {
                return Match.Held(Ambiguous, name, named.Select(a => a.Animal).Append(label.Animal));
            }

            if (named.Count == 0 || named[0].Animal != label.Animal)
            {
                return Match.Held(Mismatch, named.Count == 0 ? name : named[0].Animal, [label.Animal]);
            }
        }

        // Never drawn, given up, or drawn on another day than the result says.
        return label.Standing is { HasBlood: true, Marked: { } drawn } && drawn.Day == result.Fact.Day && view.Find(label.Animal) is { } animal
            ? Match.To(animal) with { Tube = label.Name }
            : Match.Held(NoSample, label.Animal, []);
    }

    private Match ByAnimal(ReceivedResult result, string name)
    {
        var named = _index.Named(name);
        if (named.Count > 1)
        {
            return Match.Held(Ambiguous, name, named.Select(a => a.Animal));
        }

        if (result.Tube is { } tube && _index.WithTube(tube, result.Fact.Day) is { Count: > 0 } inTube && !inTube.Intersect(named).Any())
        {
            return Match.Held(Mismatch, named.Count == 1 ? named[0].Animal : name, inTube.Select(a => a.Animal));
        }

        return named.Count == 0 ? new Match(name, HeldDraft.UnknownAnimal, [])
            : result.Fact is TestResult && WasNotDrawn(named[0], result.Fact) ? Match.Held(NoSample, named[0].Animal, [])
            : Match.To(named[0]);
    }

    // The round of that day says that she was not drawn, or that her tube broke: then it is no result of hers.
    private bool WasNotDrawn(AnimalState animal, Fact result)
    {
        var tubes = register.Of(animal.Animal, result.Day).ToList();
        return tubes.Count > 0
            && tubes.TrueForAll(t => t.Standing.State is TubeState.NotDrawn or TubeState.Broken)
            && !HerdIndex.HasSample(animal, result.Day);
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
            _ => Match.Held(Ambiguous, null, inTube.Select(a => a.Animal)),
        };
    }

    // Rule T8: without an outcome the cut-offs must be able to judge the value; nothing is converted.
    private bool CanBeJudged(Fact fact) => fact is not TestResult { Outcome: null } result || Values.FromValue(result, view.Rules) is not null;

    private bool NeedsSample(Fact fact, AnimalState animal) =>
        fact is TestResult
        && animal.GoverningProgramme(view.Rules, fact.Day).RequireRounds
        && !HerdIndex.HasSample(animal, fact.Day);
}
