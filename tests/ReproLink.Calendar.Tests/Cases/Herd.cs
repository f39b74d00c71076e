using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Cases;

/// <summary>The animals of a case.</summary>
internal sealed class Herd
{
    private readonly List<(string Animal, Fact Fact)> _facts = [];
    private readonly List<(string Animal, HeldNotice Held)> _held = [];

    public Herd(Case one)
    {
        Rules = CaseProgramme.Of(one);
        foreach (var (animal, line) in one.Facts)
        {
            try
            {
                _facts.Add((animal, FactText.Parse(line.Text, _facts.Count + 1)));
            }
            catch (FormatException mistake)
            {
                throw line.Wrong(mistake.Message);
            }
        }

        _held.AddRange(one.Held.Select((h, i) => (h.Animal, new HeldNotice($"h{i + 1}", Instant.MinValue, h.Line.Text))));
    }

    public HerdRules Rules { get; }

    public IEnumerable<string> Animals => _facts.Select(f => f.Animal).Distinct();

    public FactId Fact(string sourceId) => _facts.Single(f => f.Fact.SourceId == sourceId).Fact.Id;

    public AnimalState Fold(string animal, Day asOf, Instant? knownAt, FoldTrace? trace = null)
    {
        var known = knownAt ?? Cow.Later;
        var facts = _facts.Where(f => f.Animal == animal && f.Fact.Recorded <= known).Select(f => f.Fact);
        var history = AnimalHistory.Of(animal, facts, [.. _held.Where(h => h.Animal == animal).Select(h => h.Held)]);
        return HistoryFold.Fold(history, Rules, asOf, known, trace);
    }
}
