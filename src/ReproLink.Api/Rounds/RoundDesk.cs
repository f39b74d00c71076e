using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Rounds;

/// <summary>
/// Everything that is done to rounds: what is asked is read, judged and written here, whether it came as JSON or from a form
/// of a page. There is no second way to record a tube.
/// </summary>
internal sealed class RoundDesk(Store store, HerdRequest request)
{
    public static RoundDesk Of(HttpContext context, Store store) => new(store, context.Herd());

    /// <summary>Does something with the idempotency key of the request, and gives the answer.</summary>
    public async Task<IResult> Answer(HttpContext context, byte[] body, Func<RoundDesk, IdempotencyRecord?, Task<DeskAnswer>> write)
    {
        var (once, refusal) = IdempotencyHeader.Of(context, body);
        return refusal is not null ? refusal : (await write(this, once)).Result;
    }

    /// <summary>Freezes a day's list, or the animals named.</summary>
    public async Task<DeskAnswer> Freeze(ObjectReader reader, IdempotencyRecord? once)
    {
        var asked = RoundReader.Round(reader);
        if (reader.Problems.Any)
        {
            return Problem.OfBody(reader.Problems.List);
        }

        var view = View();
        var plan = asked.Animals is null ? RoundLists.OfDay(asked, view) : RoundLists.OfNames(asked, view, reader.Problems);
        return reader.Problems.Any
            ? Problem.OfBody(reader.Problems.List)
            : await store.Rounds.Freeze(request.Herd, plan, Hand(new RoundReplies(request.Herd, "").Frozen, once));
    }

    /// <summary>A late addition, or a new tube in the place of another.</summary>
    public async Task<DeskAnswer> Add(string round, ObjectReader reader, IdempotencyRecord? once)
    {
        var (animal, redraws) = RoundReader.Tube(reader);
        if (Find(round) is not { } found)
        {
            return RoundReplies.NoRound(round);
        }

        var view = View();
        var added = animal is null ? null : RoundLists.InHerd(view, animal);
        if (animal is not null && added is null)
        {
            reader.Refuse("animal", ProblemTypes.AnimalNotFound, "the herd's own name of an animal that is in it");
        }

        var old = redraws is null ? null : RoundVocabulary.Tube(found.Number, redraws);
        if (redraws is not null && old is null)
        {
            reader.Refuse("redraws", ProblemTypes.InvalidValue, $"a tube of round {RoundVocabulary.Name(found.Number)}");
        }

        var hand = Hand(new RoundReplies(request.Herd, round).Added, once);
        return reader.Problems.Any ? Problem.OfBody(reader.Problems.List)
            : added is not null ? await store.Rounds.Add(request.Herd, found.Number, RoundLists.Plan(added, view, found.Day), hand)
            : await store.Rounds.Redraw(request.Herd, found.Number, old!.Value, hand);
    }

    /// <summary>Says what became of a tube.</summary>
    public async Task<DeskAnswer> Mark(string round, string tube, ObjectReader reader, IdempotencyRecord? once)
    {
        if (Find(round) is not { } found)
        {
            return RoundReplies.NoRound(round);
        }

        if (RoundVocabulary.Tube(found.Number, tube) is not { } number)
        {
            return RoundReplies.NoTube(round, tube);
        }

        var (mark, was) = RoundReader.Mark(reader, request, found.Day);
        return reader.Problems.Any
            ? Problem.OfBody(reader.Problems.List)
            : await store.Rounds.Mark(request.Herd, found.Number, number, mark, Hand(new RoundReplies(request.Herd, round).Marked, once), was);
    }

    /// <summary>Sends tubes off.</summary>
    public async Task<DeskAnswer> Dispatch(string round, ObjectReader reader, IdempotencyRecord? once)
    {
        if (Find(round) is not { } found)
        {
            return RoundReplies.NoRound(round);
        }

        var (names, at, by) = RoundReader.Dispatch(reader, request);
        var day = Day.From(at.InZone(request.Zone).Date);
        var numbers = Numbers(reader, found, names);
        RefuseBeforeDraw(reader, found, numbers, day);
        if (reader.Problems.Any)
        {
            return Problem.OfBody(reader.Problems.List);
        }

        var rules = View().Rules;
        var hand = Hand(answer => new RoundReplies(request.Herd, round).Sent(answer, rules), once);
        return await store.Rounds.Send(request.Herd, found.Number, numbers, at, day, by, hand);
    }

    private HerdView View() => store.Views.Current(request.Herd, request.Now);

    private Round? Find(string round) => RoundEndpoints.Find(store, request, round);

    private RoundHand Hand(Func<RoundAnswer, StoredAnswer> render, IdempotencyRecord? once) =>
        new(request.Caller.Name, request.Now, new Reply<RoundAnswer>(render, once));

    private static List<int>? Numbers(ObjectReader reader, Round round, IReadOnlyList<string>? names)
    {
        if (names is null)
        {
            return null;
        }

        var numbers = new List<int>(names.Count);
        for (var i = 0; i < names.Count; i++)
        {
            if (RoundVocabulary.Tube(round.Number, names[i]) is { } number && round.Find(number) is not null)
            {
                numbers.Add(number);
            }
            else
            {
                reader.Problems.Add(ProblemTypes.TubeNotFound, reader.Path("tubes", i), names[i], $"a tube of round {RoundVocabulary.Name(round.Number)}", $"The round has no tube '{names[i]}'.");
            }
        }

        return [.. numbers.Distinct()];
    }

    private static void RefuseBeforeDraw(ObjectReader reader, Round round, List<int>? numbers, Day day)
    {
        var early = round.Tubes.FirstOrDefault(t =>
            t.Standing.WaitsForDispatch && t.Standing.Marked!.Day > day && (numbers is null || numbers.Contains(t.Number)));
        if (early is not null)
        {
            reader.Refuse("at", ProblemTypes.InvalidValue, $"not before {early.Standing.Marked!.Day}, the day {early.Name} was drawn");
        }
    }
}
