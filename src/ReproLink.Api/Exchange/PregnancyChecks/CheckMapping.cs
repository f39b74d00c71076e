using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Api.Reading;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.PregnancyChecks;

/// <summary>Results of tests and examinations.</summary>
internal static class CheckMapping
{
    private const string Inconclusive = "Inconclusive: repeat the test";

    private static readonly Vocabulary<TestMethod> Methods = new(
        ("Echography", TestMethod.Ultrasound), ("Palpation", TestMethod.Palpation), ("Blood", TestMethod.Blood), ("Milk", TestMethod.Milk));

    // What nobody could read withholds prostaglandin as an inconclusive test does.
    private static readonly Vocabulary<Found> Results = new(
        ("Empty", Found.Empty), ("Pregnant", Found.Pregnant), ("Multiple", Found.Multiple), ("Unknown", Found.Unknown));

    private enum Found
    {
        Empty,
        Pregnant,
        Multiple,
        Unknown,
    }

    public static readonly EventNoun Checks = new EventNoun<PregnancyCheck>(
        "pregnancy-checks", "pregnancy check", "icarReproPregnancyCheckEventResource", new KindSet(FactKind.Result, FactKind.Examination), Write)
    {
        Posts = Permissions.PostResults,
        IsResult = true,
        // A spoiled sample says nothing of her, and would take her off a reader's list.
        Shows = fact => fact is not (TestResult { Outcome: Outcome.Invalid } or Examination { Outcome: Outcome.Invalid }),
        Read = Read,
        Description = """
            Tests of blood and milk, ultrasound and palpation; the other methods of the standard are refused, for no test stands behind them.
            A check that cannot be tied to one animal is answered 202 and waits for a person; one of an animal not on record yet is stored by itself once
            she appears. Spoiled samples are no checks.
            """,
        Example = """
            "eventDateTime":"2026-10-08T11:30:00Z","method":"Blood","result":"Empty"
            """,
    };

    private static Fact Read(EventInput input)
    {
        var (day, time) = input.When();
        var method = input.Reader.Word("method", Methods, required: true) ?? TestMethod.Blood;
        var outcome = (input.Reader.Word("result", Results, required: true) ?? Found.Unknown) switch
        {
            Found.Empty => Outcome.Open,
            Found.Unknown => Outcome.Recheck,
            _ => Outcome.Pregnant,
        };
        return method.IsExamination()
            ? new Examination(day, method, outcome) { Time = time, CameAsResult = true, Examiner = input.Reader.Text("responsible", TextRule.Label) }
            : new TestResult(day, method, outcome) { Time = time };
    }

    private static PregnancyCheck Write(EventOutput output)
    {
        var (method, said) = output.Fact is Examination examination
            ? (examination.Method, examination.Outcome)
            : (((TestResult)output.Fact).Method, ((TestResult)output.Fact).Outcome);
        var outcome = output.Judgement?.Effective ?? said ?? Outcome.Recheck;
        return new PregnancyCheck
        {
            Method = Methods.Word(method),
            Result = Results.Word(outcome switch
            {
                Outcome.Open => Found.Empty,
                Outcome.Pregnant => Found.Pregnant,
                _ => Found.Unknown,
            }),
            Responsible = (output.Fact as Examination)?.Examiner,
            Remark = outcome == Outcome.Recheck ? Inconclusive : null,
            Extension = Extended(output, outcome),
        };
    }

    private static ExtensionContract Extended(EventOutput output, Outcome outcome)
    {
        var test = output.Fact as TestResult;
        var judgement = output.Judgement;
        return output.Extension() with
        {
            Outcome = FactVocabulary.Outcomes.Word(outcome),
            Value = test?.Value,
            Unit = test?.Unit,
            Assay = test?.Assay,
            Specimen = test?.Specimen,
            Tube = test?.Tube,
            Reported = test?.ReportedAt ?? (output.Fact as Examination)?.ReportedAt,
            Decides = TestResultMapping.DecisionWord(judgement?.Decides ?? Calendar.Status.Decision.Nothing),
            Reasons = judgement is { Reasons.Count: > 0 } ? [.. judgement.Reasons.Select(ReasonContract.Of)] : null,
            Service = Credited(output),
        };
    }

    private static CreditedContract? Credited(EventOutput output) =>
        output.State?.Pregnancy is { By: { } service } pregnancy && pregnancy.FoundBy == output.Fact.Id
            ? new CreditedContract { Source = service.Fact.Source, SourceId = service.Fact.SourceId, Date = service.DayZero.Date }
            : null;
}
