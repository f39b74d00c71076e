using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Api.ReceivedResults;

/// <summary>A result as read: whose it may be, and the fact it becomes once that is known.</summary>
/// <param name="Animal">The animal as named.</param>
/// <param name="Tube">The tube as named.</param>
/// <param name="Fact">The fact.</param>
internal sealed record ReceivedResult(string? Animal, string? Tube, Fact Fact);

/// <summary>One item of a batch to a result, or to everything that is wrong with it.</summary>
internal sealed class TestResultReader(HerdRequest request, string? sender = null)
{
    private readonly Door _door = new(request);

    public (ReceivedResult? Result, string? SourceId) Read(BatchItem item, FieldProblems problems)
    {
        var reader = new ObjectReader(item.Element, problems);
        if (!reader.IsObject)
        {
            return (null, null);
        }

        var sourceId = reader.Text("sourceId", TextRule.Name, required: true);
        var source = reader.Text("source", TextRule.Name) ?? sender ?? request.Caller.Name;
        var animal = reader.Text("animal", TextRule.Name);
        var sampled = _door.Past(reader, "sampled", required: true);
        var time = reader.Time("time");
        var reported = _door.Reported(reader, "reported", sampled);
        var outcome = reader.Word("outcome", FactVocabulary.Outcomes);
        var said = reader.Word("method", FactVocabulary.Methods);
        if (said is null && reader.Has("method"))
        {
            // Which other properties are right hangs on the method.
            return (null, sourceId);
        }

        // Without a method it is judged as blood: those rules ask the most of a sample.
        var method = said ?? TestMethod.Blood;
        var (fact, tube) = method.IsExamination()
            ? (Examined(reader, sampled ?? Day.Earliest, method, outcome, reported), null)
            : Tested(reader, sampled ?? Day.Earliest, method, outcome, reported);
        if (!reader.Has("animal") && !reader.Has("tube"))
        {
            reader.Refuse("animal", ProblemTypes.MissingProperty, "'animal', or 'tube' for blood and milk, or both", "Neither 'animal' nor 'tube' says whose result it is.");
        }

        reader.Done();
        return problems.Any
            ? (null, sourceId)
            : (new ReceivedResult(animal, tube, fact with { Source = source, SourceId = sourceId!, Time = time }), sourceId);
    }

    private static (Fact Fact, string? Tube) Tested(ObjectReader reader, Day sampled, TestMethod method, Outcome? outcome, Instant? reported)
    {
        var tube = reader.Text("tube", TextRule.Name);
        var result = new TestResult(sampled, method, outcome)
        {
            ReportedAt = reported,
            Value = reader.Number("value"),
            Unit = reader.Text("unit", TextRule.Label),
            Assay = reader.Text("assay", TextRule.Label),
            Specimen = reader.Text("specimen", TextRule.Label),
            Tube = tube,
        };
        if (!reader.Has("outcome") && !reader.Has("value"))
        {
            reader.Refuse("outcome", ProblemTypes.MissingProperty, FactVocabulary.Outcomes.Allowed + ", or a 'value' with 'unit' and 'assay'",
                "Neither 'outcome' nor 'value' says what was found.");
        }

        return (result, tube);
    }

    // A person's finding carries no measured value; sent with one, it is refused by name rather than kept without it.
    private static Examination Examined(ObjectReader reader, Day day, TestMethod method, Outcome? outcome, Instant? reported)
    {
        if (!reader.Has("outcome"))
        {
            reader.Refuse("outcome", ProblemTypes.MissingProperty, FactVocabulary.Outcomes.Allowed);
        }

        return new Examination(day, method, outcome ?? default)
        {
            ReportedAt = reported,
            CameAsResult = true,
            CorpusLuteum = reader.Truth("corpusLuteum"),
            Examiner = reader.Text("examiner", TextRule.Label),
        };
    }
}
