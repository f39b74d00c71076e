using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Testing;

/// <summary>
/// The candidates of one window and their reduction: the latest <c>opens</c> binds; of equal ones the first in the order
/// T1, T2, T3, T4, resample. Reused from animal to animal.
/// </summary>
internal sealed class CandidateList
{
    private readonly List<Candidate> _items = [];

    public IReadOnlyList<Candidate> Items => _items;

    public Candidate? Binding { get; private set; }

    public void Clear()
    {
        _items.Clear();
        Binding = null;
    }

    public void Opens(CandidateCause cause, Day date, Day from, FactId? fact)
    {
        var candidate = new Candidate(cause, Bound.Opens, date, from, fact);
        _items.Add(candidate);
        if (Binding is not { } binding || date > binding.Date || (date == binding.Date && candidate.Reason < binding.Reason))
        {
            Binding = candidate;
        }
    }

    public void Limit(CandidateCause cause, Bound bound, Day date, Day from, FactId? fact) =>
        _items.Add(new Candidate(cause, bound, date, from, fact));
}
