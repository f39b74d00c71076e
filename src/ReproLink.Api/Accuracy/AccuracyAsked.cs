using ReproLink.Api.Reading;
using ReproLink.Api.WhatIf;
using ReproLink.Calendar.Figures.Accuracy;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Records;

namespace ReproLink.Api.Accuracy;

/// <summary>What was asked of a test in the herd, from the API's query or the page's: one reader judges both.</summary>
internal sealed record AccuracyAsked(HerdOwnRates Own, TestReport Report, double? Share, double? Test, double? DayOpen, double? LostPregnancy)
{
    private const double MostMoney = 1_000_000;

    /// <summary>From what price of a lost pregnancy a second sample pays; null = a price is missing, or it keeps none.</summary>
    public double? PaysFrom => Test is { } test && DayOpen is { } day && Report.SecondSampleDays is { } days ? Report.InHerd?.Second?.PaysFrom(test, day, days) : null;

    public static AccuracyAsked Read(QueryReader query, HerdView view)
    {
        var last = HerdOwnRates.LastSettled(view.AsOf);
        var (from, to) = (query.Day("from"), query.Day("to"));
        if (to > last)
        {
            query.Refuse("to", to.ToString(), $"a day up to {last}: later services are not settled yet");
            to = null;
        }

        if (from > (to ?? last))
        {
            query.Refuse("from", from.ToString(), $"a day up to 'to', {to ?? last}");
            from = null;
        }

        var id = query.Text("study") ?? AccuracyLibrary.Usual;
        var study = AccuracyLibrary.Find(id);
        if (study is not { NotUsable: null })
        {
            query.Refuse("study", id, TestInputs.Allowed, study is null ? null : $"The study '{id}' cannot be reckoned with, {study.NotUsable}; allowed: {TestInputs.Allowed}.");
            study = AccuracyLibrary.Find(AccuracyLibrary.Usual)!;
        }

        var share = query.Number("sharePregnant", 0, 1);
        var own = KeptRates.Of(view, from, to);
        var (course, _) = CourseMaker.Of(view.Rules.On(view.AsOf).Programme, [.. view.Rules.OwnProtocols]);
        return new AccuracyAsked(
            own, TestReport.Of(study, own.FirstTests, share, course), share,
            query.Number("testPrice", 0, MostMoney), query.Number("dayOpenPrice", 0, MostMoney), query.Number("lostPregnancyPrice", 0, MostMoney));
    }
}
