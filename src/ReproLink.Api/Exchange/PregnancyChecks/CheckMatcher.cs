using System.Text.Json;
using ReproLink.Api.Composition;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Facts;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.PregnancyChecks;

/// <summary>Ties checks to animals as every other result is tied, or holds them: none is guessed, none is dropped.</summary>
internal sealed class CheckMatcher(HerdView view, TubeRegister tubes)
{
    private readonly ResultMatcher _matcher = new(view, tubes);

    public void Tie(EventItem item)
    {
        if (item is not { Draft: { } draft, Named: { } named })
        {
            return;
        }

        var match = MayMean(named, item.Input.Animal.Id) is { Count: > 0 } others
            ? Match.Held(ResultMatcher.Ambiguous, null, others)
            : _matcher.Tie(new ReceivedResult(named.Name, null, draft.Fact));
        if (match.HeldFor is null)
        {
            item.Draft = draft with { Animal = match.Animal! };
            return;
        }

        item.Draft = null;
        item.Beside.Clear();
        item.Held = new HeldDraft(
            draft.Fact.Source, draft.Fact.SourceId, match.Animal, null, match.HeldFor, Content(item.Input.Animal.Id, draft.Fact),
            match.Animal is null ? null : draft with { Animal = match.Animal })
        {
            MayMean = match.MayMean,
        };
    }

    // The same id in another scheme, or one that is alike, may be the same cow, or may not be: a person decides.
    private IReadOnlyList<string> MayMean(NamedAnimal named, string id)
    {
        if (named.IsAmbiguous || named.State is not null)
        {
            return [.. named.Carriers.Select(a => a.Animal)];
        }

        var index = HerdIndex.Of(view);
        return [.. index.Named(id).Concat(index.WithIdentifier(id)).Concat(index.Alike(id)).Select(a => a.Animal).Distinct()];
    }

    // In the words of the other door, in which whoever settles it reads it.
    private static string Content(string animal, Fact fact)
    {
        var (method, outcome) = fact is Examination examination
            ? (examination.Method, examination.Outcome)
            : (((TestResult)fact).Method, ((TestResult)fact).Outcome!.Value);
        return JsonSerializer.Serialize(
            new TestResultInput
            {
                Source = fact.Source,
                SourceId = fact.SourceId,
                Animal = animal,
                Sampled = fact.Day.Date,
                Time = fact.Time,
                Method = FactVocabulary.Methods.Word(method),
                Outcome = FactVocabulary.Outcomes.Word(outcome),
                Examiner = (fact as Examination)?.Examiner,
            },
            JsonSetup.Options);
    }
}
