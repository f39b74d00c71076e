using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Api.Rounds;

/// <summary>What is asked of a new round.</summary>
internal sealed record AskedRound(Day Date, IReadOnlyList<string>? Animals, string? Name, string Specimen);

/// <summary>Bodies about rounds to what they ask for, or to everything that is wrong with them.</summary>
internal static class RoundReader
{
    public const int MostTubes = 2000;

    public static AskedRound Round(ObjectReader reader)
    {
        var asked = new AskedRound(
            reader.Day("date", required: true) ?? default,
            Names(reader, "animals", MostTubes),
            reader.Text("name", TextRule.Label),
            FactVocabulary.Specimens.Word(reader.Word("specimen", FactVocabulary.Specimens) ?? FactVocabulary.Specimen.Serum));
        reader.Done();
        return asked;
    }

    public static (string? Animal, string? Redraws) Tube(ObjectReader reader)
    {
        var (animal, redraws) = (reader.Text("animal", TextRule.Name), reader.Text("redraws", TextRule.Name));
        if (reader.Has("animal") == reader.Has("redraws"))
        {
            reader.Refuse("animal", ProblemTypes.MissingProperty, "either 'animal' or 'redraws'", "Say either which animal is added, or which tube is drawn again.");
        }

        reader.Done();
        return (animal, redraws);
    }

    /// <summary>What became of a tube, and what its sender last saw of it.</summary>
    public static (TubeMarked Mark, TubeState? Was) Mark(ObjectReader reader, HerdRequest request, Day roundDay)
    {
        var state = reader.Word("state", RoundVocabulary.States, required: true) ?? TubeState.Planned;
        var hasBlood = state is TubeState.Drawn or TubeState.Short;
        // Known beforehand that she is gone: that is said today. Blood is drawn on the day of the round, unless a date says otherwise.
        var day = new Door(request).Past(reader, "date") ?? (hasBlood ? roundDay : Day.Min(roundDay, request.Today));
        var reason = reader.Word("reason", RoundVocabulary.Reasons, required: state == TubeState.NotDrawn);
        if (reason is not null && state != TubeState.NotDrawn)
        {
            reader.Refuse("reason", ProblemTypes.InvalidValue, "only with the state not-drawn");
        }

        if (!reader.Has("date") && hasBlood && day - request.Today > 1)
        {
            reader.Refuse("date", ProblemTypes.InTheFuture, $"at most 1 day after the herd's today, {request.Today}",
                $"The round is of {roundDay}, which lies ahead: send the 'date' on which it happened.");
        }

        var mark = new TubeMarked(request.Now, state, day)
        {
            Time = reader.Time("time"),
            By = reader.Text("by", TextRule.Label) ?? request.Caller.Name,
            Reason = reason,
        };
        var was = reader.Word("was", RoundVocabulary.States);
        reader.Done();
        return (mark, was);
    }

    public static (IReadOnlyList<string>? Tubes, Instant At, string By) Dispatch(ObjectReader reader, HerdRequest request)
    {
        var at = new Door(request).Reported(reader, "at", about: null) ?? request.Now;
        var asked = (Names(reader, "tubes", MostTubes), at, reader.Text("by", TextRule.Label) ?? request.Caller.Name);
        reader.Done();
        return asked;
    }

    private static List<string>? Names(ObjectReader reader, string name, int most)
    {
        if (reader.List(name, most, $"a list of texts, each {TextRule.Name.Allowed}") is not { } elements)
        {
            return null;
        }

        var names = new List<string>(elements.Count);
        for (var i = 0; i < elements.Count; i++)
        {
            var text = elements[i].ValueKind == System.Text.Json.JsonValueKind.String ? elements[i].GetString()! : "";
            if (!TextRule.Name.Accepts(text) || names.Contains(text))
            {
                reader.Problems.Add(ProblemTypes.InvalidValue, reader.Path(name, i), elements[i], $"{TextRule.Name.Allowed}, each once",
                    $"Item {i + 1} of '{name}' is not allowed; allowed: {TextRule.Name.Allowed}, each once.");
            }

            names.Add(text);
        }

        if (elements.Count == 0)
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, "at least one, or leave the property out");
        }

        return names;
    }
}
