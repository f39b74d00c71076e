using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Treatments;

/// <summary>Treatments with the agents of a breeding programme.</summary>
internal static class TreatmentMapping
{
    public static readonly EventNoun Treatments = new EventNoun<TreatmentEvent>(
        "treatments", "treatment", "icarTreatmentEventResource", new KindSet(FactKind.Treatment), Write)
    {
        Shows = fact => fact is Treatment { NotDone: false },
        Read = Read,
        Description = """
            The class of the agent must be said, in `procedure` or as `agent` of our extension: it is never guessed from a product's name, and a treatment that
            does not say it is refused. Doses are neither read nor written.
            """,
        Example = """
            "eventDateTime":"2026-10-06T12:10:00Z","procedure":"gnrh"
            """,
    };

    private static Treatment Read(EventInput input)
    {
        var (day, time) = input.When();
        var agent = input.Extension()?.Word("agent", FactVocabulary.Agents);
        if (agent is null && input.Reader.Text("procedure", TextRule.Words) is { } procedure && FactVocabulary.Agents.TryRead(procedure.ToLowerInvariant(), out var said))
        {
            agent = said;
        }

        if (agent is null)
        {
            input.Reader.Refuse("procedure", ProblemTypes.InvalidValue, FactVocabulary.Agents.Allowed + "; the class of the agent is never guessed from a product");
        }

        return new Treatment(day, agent ?? default, false) { Time = time };
    }

    private static TreatmentEvent Write(EventOutput output)
    {
        var agent = FactVocabulary.Agents.Word(((Treatment)output.Fact).Agent);
        return new TreatmentEvent { Procedure = agent, Extension = output.Extension() with { Agent = agent } };
    }
}
