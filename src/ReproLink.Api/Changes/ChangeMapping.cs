using System.Globalization;
using ReproLink.Api.Animals;
using ReproLink.Api.Facts;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Changes;

internal static class ChangeMapping
{
    public static ChangePage Answer(Page<ChangeDetail> page, HerdView view) => new()
    {
        Changes = [.. page.Items.Select(Of)],
        Animals = [.. page.Items.Select(item => item.Change.Animal).OfType<string>().Distinct(StringComparer.Ordinal).Select(animal => Of(animal, view))],
        Next = page.Next,
        Cautions = Cautions.All,
    };

    private static ChangeAnswer Of(ChangeDetail detail)
    {
        var change = detail.Change;
        var bare = new ChangeAnswer { Cursor = ChangeLog.CursorOf(change), Kind = ChangeWords.Kinds.Word(change.Kind), At = change.Recorded, Animal = change.Animal };
        return change.Kind switch
        {
            ChangeKind.Fact => bare with { Fact = FactMapping.Answer(detail.Fact!.Animal, detail.Fact.Fact) },
            ChangeKind.Withdrawal => bare with { FactId = change.Subject, Reason = detail.Fact?.WithdrawnReason },
            ChangeKind.Held => bare with { HeldId = change.Subject, Reason = detail.Held?.Draft.Reason },
            ChangeKind.HeldEnd => bare with { HeldId = change.Subject, Reason = detail.Held?.End?.Ending, FactId = detail.Held?.End?.Fact?.ToString() },
            ChangeKind.Programme or ChangeKind.Approval or ChangeKind.Refusal or ChangeKind.Round => bare with { Number = int.Parse(change.Subject, CultureInfo.InvariantCulture) },
            _ => bare,
        };
    }

    private static ChangedAnimal Of(string animal, HerdView view)
    {
        if (view.Find(animal) is not { } state)
        {
            return new ChangedAnimal { Animal = animal, Results = [], Plan = [] };
        }

        var trace = new FoldTrace();
        HistoryFold.Fold(state.History, view.Rules, view.AsOf, view.KnownAt, trace);
        return new ChangedAnimal
        {
            Animal = animal,
            Status = StatusWords.Of(state.Status),
            Results = [.. trace.Judgements.Select(j => new DecidedResult { FactId = j.Fact.ToString(), Decides = TestResultMapping.DecisionWord(j.Decides) })],
            Plan = AnimalMapping.Plan(state, view.Rules, view.KnownAt),
        };
    }
}
