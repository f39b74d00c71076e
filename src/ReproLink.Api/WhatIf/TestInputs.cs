using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Figures.Accuracy;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.WhatIf;

namespace ReproLink.Api.WhatIf;

/// <summary>A test as asked: a study, single rates in its place, or both.</summary>
internal sealed record TestInputs
{
    public PublishedAccuracy Study { get; init; } = AccuracyLibrary.Find(AccuracyLibrary.Usual)!;

    public double? Sensitivity { get; init; }

    public double? Specificity { get; init; }

    public double? Inconclusive { get; init; }

    public bool SecondSample { get; init; }

    public static TestInputs Read(ObjectReader reader, TestInputs? usual = null)
    {
        usual ??= new TestInputs();
        var study = ReadStudy(reader);
        var inputs = new TestInputs
        {
            Study = study ?? usual.Study,
            // Another study brings its own rates.
            Sensitivity = Shares.Number(reader, "sensitivity", 0.01, 1) ?? (study is null ? usual.Sensitivity : null),
            Specificity = Shares.Number(reader, "specificity", 0.01, 1) ?? (study is null ? usual.Specificity : null),
            Inconclusive = Shares.Number(reader, "inconclusive", 0, 0.9) ?? usual.Inconclusive,
            SecondSample = reader.Truth("secondSample") ?? usual.SecondSample,
        };
        reader.Done();
        return inputs;
    }

    public ProgrammeTest Test(HerdOwnRates own) => new()
    {
        Sensitivity = Sensitivity is { } sensitivity ? Estimate.Given(sensitivity) : Study.Rates!.Sensitivity,
        Specificity = Specificity is { } specificity ? Estimate.Given(specificity) : Study.Rates!.Specificity,
        Inconclusive = Inconclusive is { } inconclusive ? Estimate.Given(inconclusive)
            : Estimate.Of(own.FirstTests.Inconclusive, EstimateOrigin.Herd)
            ?? (Study.Inconclusive is { } published ? new Estimate((double)published, null, EstimateOrigin.Published) : Estimate.Given(0)),
        SecondSample = SecondSample,
        Study = Sensitivity is not null && Specificity is not null ? null : Study.Id,
    };

    /// <summary>What a study may be named by.</summary>
    public static string Allowed => "one of " + string.Join(", ", AccuracyLibrary.Usable.Select(a => a.Id));

    private static PublishedAccuracy? ReadStudy(ObjectReader reader)
    {
        if (reader.Text("study", TextRule.Name) is not { } id)
        {
            return null;
        }

        var study = AccuracyLibrary.Find(id);
        if (study is { NotUsable: null })
        {
            return study;
        }

        reader.Refuse("study", ProblemTypes.InvalidValue, Allowed, study is null
            ? $"There is no study '{id}'; allowed: {Allowed}."
            : $"The study '{id}' cannot be reckoned with, {study.NotUsable}; allowed: {Allowed}.");
        return null;
    }
}
