using NodaTime;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <summary>Facts and held results of one request, one atomic unit.</summary>
public sealed record Submission(IReadOnlyList<FactDraft> Facts, IReadOnlyList<HeldDraft> Held)
{
    /// <summary>The batch as received, kept beside what became of it; null = it is not kept.</summary>
    public ReceivedBatch? Received { get; init; }
}

/// <summary>What became of a <see cref="Submission"/>, in its order.</summary>
public sealed class SubmissionAnswer
{
    private readonly Func<string, AnimalHistory?> _history;

    internal SubmissionAnswer(
        IReadOnlyList<AppendAnswer> facts, IReadOnlyList<string> held, Instant recorded, Func<string, AnimalHistory?> history)
    {
        (Facts, Held, Recorded) = (facts, held, recorded);
        _history = history;
    }

    /// <summary>One answer for each fact.</summary>
    public IReadOnlyList<AppendAnswer> Facts { get; }

    /// <summary>One id for each held result.</summary>
    public IReadOnlyList<string> Held { get; }

    /// <summary>When all of it was recorded.</summary>
    public Instant Recorded { get; }

    /// <summary>The number under which it is kept as received; absent = it is not kept.</summary>
    public long? Batch { get; internal init; }

    /// <summary>An animal as this submission leaves her; only while the answer is being rendered inside the transaction.</summary>
    public AnimalHistory? History(string animal) => _history(animal);
}

/// <summary>One submission on its way into the store.</summary>
internal sealed class Intake(WriteUnit unit, long herd, Instant recorded)
{
    private bool? _anyHeld;

    private bool AnyHeld
    {
        get => _anyHeld ??= HeldWriter.Any(unit.Connection, herd);
        set => _anyHeld = value;
    }

    public SubmissionAnswer Take(Submission submission)
    {
        var held = submission.Held.Select(Hold).ToArray();
        var facts = new AppendAnswer[submission.Facts.Count];
        for (var i = 0; i < facts.Length; i++)
        {
            facts[i] = Append(submission.Facts[i]);
        }

        return new SubmissionAnswer(facts, held, recorded, History)
        {
            Batch = submission.Received is { } batch ? ReceivedWriter.Write(unit, herd, recorded, batch, facts, held) : null,
        };
    }

    public AppendAnswer Append(FactDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        if (AnyHeld)
        {
            // The sender tied it after all: what was held of it is settled.
            HeldWriter.EndOpen(unit, herd, draft.Fact.Source, draft.Fact.SourceId, recorded, HeldEnding.Replaced, draft.Fact.Source);
        }

        var answer = FactAppender.Append(unit, herd, draft, recorded);
        if (AnyHeld)
        {
            Release(draft.Animal);
        }

        return answer;
    }

    public string Hold(HeldDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        var id = HeldWriter.Hold(unit, herd, draft, recorded);
        AnyHeld = true;
        // She may have appeared between the caller's look and now.
        if (HeldWriter.WaitsFor(draft) is { } animal && IsOnRecord(animal))
        {
            Release(animal);
        }

        return HeldWriter.Text(id);
    }

    /// <summary>Rule T9: what was held because the animal was unknown is appended by itself once she is known.</summary>
    private void Release(string animal)
    {
        foreach (var waiting in HeldWriter.WaitingFor(unit, herd, animal).Where(IsOfNoOthersTube))
        {
            // Ended first: appending it must not find it open.
            HeldWriter.EndOpen(unit, herd, waiting.Source, waiting.SourceId, recorded, HeldEnding.Released, waiting.Source, () =>
                FactAppender.Append(unit, herd, waiting.ToFactDraft()!, recorded).Id);
        }
    }

    // A tube labelled since for another animal contradicts the name: then it goes on waiting for a person.
    private bool IsOfNoOthersTube(HeldRow waiting) =>
        TubeNames.Read(waiting.Tube) is not var (round, number)
        || RoundRows.Find(unit.Connection, herd, round)?.Find(number) is not { } label
        || label.Animal == waiting.ToFactDraft()?.Animal;

    private bool IsOnRecord(string animal)
    {
        if (unit.Names.FindAnimal(herd, animal) is not { } number)
        {
            return false;
        }

        return new FactRows(unit.Connection, herd, knownAt: null, new TextPool()).Animal(number).Length > 0;
    }

    public AnimalHistory? History(string animal)
    {
        if (unit.Names.FindAnimal(herd, animal) is not { } number)
        {
            return null;
        }

        var facts = new FactRows(unit.Connection, herd, knownAt: null, new TextPool()).Animal(number);
        var held = HeldRows.Notices(unit.Connection, herd, knownAt: null);
        return facts.Length == 0 ? null : new AnimalHistory(animal, facts, held.TryGetValue(animal, out var notices) ? notices : []);
    }
}
