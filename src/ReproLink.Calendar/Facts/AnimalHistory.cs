using NodaTime;

namespace ReproLink.Calendar.Facts;

/// <summary>A received result that could not be tied to one animal and that names, or may mean, this one.</summary>
/// <param name="HeldId">The held result's id.</param>
/// <param name="Received">When it was received.</param>
/// <param name="Reason">Why it is held, e.g. <c>assay-unknown</c>.</param>
public sealed record HeldNotice(string HeldId, Instant Received, string Reason);

/// <summary>What is known of one animal: the input of the fold.</summary>
/// <param name="Animal">The herd's own name of her, as received.</param>
/// <param name="Facts">Her facts that count at the moment looked at (recorded, not withdrawn), in <see cref="FactOrder"/>.</param>
/// <param name="Held">Held results that name or may mean her, unresolved at the moment looked at.</param>
public sealed record AnimalHistory(string Animal, IReadOnlyList<Fact> Facts, IReadOnlyList<HeldNotice> Held)
{
    /// <summary>A history of facts in any order, put in order.</summary>
    public static AnimalHistory Of(string animal, IEnumerable<Fact> facts, IReadOnlyList<HeldNotice>? held = null)
    {
        var list = facts.ToArray();
        Array.Sort(list, FactOrder.Instance);
        return new AnimalHistory(animal, list, held ?? []);
    }
}
