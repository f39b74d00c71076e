using ReproLink.Api.Facts;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Figures.Accuracy;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Protocols;
using ReproLink.Records;

namespace ReproLink.Api.Accuracy;

internal static class TestAccuracyMapping
{
    private const string NoTests = "no first test after a service in the period, and no share given";

    private static readonly Vocabulary<CountsKnown> Counts = new(
        ("published", CountsKnown.Published), ("only-table", CountsKnown.OnlyTable), ("one-of-several", CountsKnown.OneOfSeveral),
        ("assumed", CountsKnown.Assumed), ("none", CountsKnown.None));

    private static readonly Vocabulary<RatesCheck> Checks = new(
        ("agrees", RatesCheck.Agrees), ("does-not-agree", RatesCheck.DoesNotAgree), ("not-checked", RatesCheck.NotChecked));

    public static TestAccuracyAnswer Answer(AccuracyAsked asked, HerdView view) => new()
    {
        Herd = view.Herd.Name,
        AsOf = view.AsOf.Date,
        From = asked.Own.From.Date,
        To = asked.Own.To.Date,
        FirstTests = Of(asked.Own.FirstTests),
        Study = asked.Report.Study.Id,
        InHerd = asked.Report.InHerd is { } herd ? Of(asked, herd) : null,
        NoValue = asked.Report.InHerd is null ? NoTests : null,
        Assumptions = TestReport.Assumptions,
        Studies = [.. AccuracyLibrary.All.Select(study => Of(study, asked))],
        Cautions = Cautions.All,
    };

    private static FirstTestsAnswer Of(FirstTests tests) => new()
    {
        Pregnant = tests.Pregnant,
        Open = tests.Open,
        Recheck = tests.Recheck,
        CalledPregnant = EstimateContract.Of(Estimate.Of(tests.CalledPregnant, EstimateOrigin.Herd), "no first test said pregnant or open") with { Numerator = tests.Pregnant, Denominator = tests.CalledPregnant.Of, From = "herd" },
        Inconclusive = EstimateContract.Of(Estimate.Of(tests.Inconclusive, EstimateOrigin.Herd), "no first test") with { Numerator = tests.Recheck, Denominator = tests.Inconclusive.Of, From = "herd" },
    };

    private static TestInHerdAnswer Of(AccuracyAsked asked, TestInHerd herd) => new()
    {
        SharePregnant = EstimateContract.Of(herd.SharePregnant),
        OutOfRange = herd.OutOfRange ? true : null,
        PositivePredictive = EstimateContract.Of(herd.PositivePredictive, "no answer pregnant is expected"),
        NegativePredictive = EstimateContract.Of(herd.NegativePredictive, "no answer open is expected"),
        WrongOpenOf1000 = EstimateContract.Of(herd.WrongOpen),
        WrongOf1000Open = EstimateContract.Of(herd.WrongOfOpen, "no answer open is expected"),
        WrongPregnantOf1000 = EstimateContract.Of(herd.WrongPregnant),
        WrongOpenHere = EstimateContract.Of(asked.Report.WrongOpenHere, "no first test said open") with { Denominator = asked.Own.FirstTests.Open },
        CostOf1000 = asked.LostPregnancy is { } price && herd.WrongOpen is { } wrong ? EstimateContract.Of(Carrying.One([wrong], v => v[0] * price)) : null,
        SecondSample = herd.Second is { } second ? Of(asked, second) : null,
    };

    private static SecondSampleAnswer Of(AccuracyAsked asked, SecondSample second) => new()
    {
        WrongOpenWithOne = EstimateContract.Of(second.WrongOpenWithOne),
        WrongOpenIfIndependent = EstimateContract.Of(second.WrongOpenIfIndependent),
        WrongOpenIfRepeated = EstimateContract.Of(second.WrongOpenIfRepeated),
        Tubes = EstimateContract.Of(second.Tubes),
        OpenWaiting = EstimateContract.Of(second.OpenWaiting),
        OpenHeldBack = EstimateContract.Of(second.OpenHeldBack),
        DaysLater = asked.Report.SecondSampleDays,
        TubesForOne = EstimateContract.Of(second.TubesForOne, "it keeps no pregnancy"),
        PaysFrom = asked.PaysFrom,
        Pays = asked.LostPregnancy is { } price && asked.PaysFrom is { } from ? price > from : null,
    };

    private static StudyAnswer Of(PublishedAccuracy study, AccuracyAsked asked)
    {
        var here = study.NotUsable is null ? TestReport.Of(study, asked.Own.FirstTests, asked.Share, null).InHerd : null;
        return new StudyAnswer
        {
            Id = study.Id,
            Study = study.Study,
            Doi = study.Doi,
            Test = study.Test,
            Method = FactVocabulary.Methods.Word(study.Method),
            Specimen = study.Specimen,
            Days = study.Days,
            Animals = study.Animals,
            Sensitivity = Rate(study.Rates?.Sensitivity, study.Sensitivity),
            Specificity = Rate(study.Rates?.Specificity, study.Specificity),
            Inconclusive = (double?)study.Inconclusive,
            Counts = Counts.Word(study.Counts),
            Reference = study.Reference,
            Evidence = study.Evidence == Evidence.Memory ? "memory" : "seen",
            Check = Checks.Word(study.Check),
            Note = study.Note,
            NotUsable = study.NotUsable,
            PositivePredictiveHere = here?.PositivePredictive is { } positive ? EstimateContract.Of(positive) : null,
            NegativePredictiveHere = here?.NegativePredictive is { } negative ? EstimateContract.Of(negative) : null,
        };
    }

    private static EstimateContract Rate(Estimate? reckoned, decimal? printed) => EstimateContract.Of(
        reckoned ?? (printed is { } rate ? new Estimate((double)rate, null, EstimateOrigin.Published) : null), "not published");
}
