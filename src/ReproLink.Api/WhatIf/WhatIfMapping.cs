using ReproLink.Api.Accuracy;
using ReproLink.Api.Programmes;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Records;

namespace ReproLink.Api.WhatIf;

internal static class WhatIfMapping
{
    private const int CurveStep = 10;
    private const string NoCount = "no protocol is reckoned with: days were given";

    public static WhatIfAnswer Answer(WhatIfAsked asked, WhatIfComparison comparison, HerdView view) => new()
    {
        Herd = view.Herd.Name,
        AsOf = view.AsOf.Date,
        From = asked.Own.From.Date,
        To = asked.Own.To.Date,
        Rates = [.. Rates(asked.Own)],
        Programmes = [.. comparison.Results.Select(result => Of(comparison, result))],
        Assumptions = WhatIfWords.Assumptions(comparison),
        Cautions = Cautions.All,
    };

    /// <summary>The herd's own rates under the names they are given by.</summary>
    public static IEnumerable<RateAnswer> Rates(HerdOwnRates own)
    {
        yield return Of("firstServiceDays", own.FirstServiceDays);
        yield return Of("pregnantFirst", own.PregnantFirst);
        yield return Of("pregnantLater", own.PregnantLater);
        yield return Of("returns", own.Returns);
        yield return Of("loss", own.Loss);
        yield return new RateAnswer
        {
            Rate = "inconclusive",
            Label = "first tests that were inconclusive",
            Value = EstimateContract.Of(Estimate.Of(own.FirstTests.Inconclusive, EstimateOrigin.Herd)) with { Denominator = own.FirstTests.Inconclusive.Of },
            Method = "Wilson score interval",
            LeftOut = 0,
        };
    }

    /// <summary>The figures of a programme, in the order in which they are shown.</summary>
    public static IEnumerable<(string Figure, string Unit, Estimate? Value, Estimate? FromFirst)> Figures(WhatIfResult result)
    {
        var (figures, difference) = (result.Figures, result.FromFirst);
        yield return ("days-open", "days", figures.DaysOpen, difference?.DaysOpen);
        foreach (var day in WhatIfFigures.Days)
        {
            yield return ($"pregnant-by-{day}", "share", figures.Pregnant[day], difference?.Pregnant[day]);
        }

        yield return ("pregnancies-ended", "of 100", figures.DestroyedOf100, difference?.DestroyedOf100);
        yield return ("services", "each", figures.Services, difference?.Services);
        yield return ("tests", "each", figures.Tests, difference?.Tests);
        yield return ("confirmations", "each", figures.Confirmations, difference?.Confirmations);
        yield return ("gnrh", "doses", figures.Gnrh, difference?.Gnrh);
        yield return ("pgf", "doses", figures.Pgf, difference?.Pgf);
        yield return ("inserts", "doses", figures.Inserts, difference?.Inserts);
        if (figures.Money is not null)
        {
            yield return ("not-pregnant-at-end", "share", figures.NotPregnantAtEnd, difference?.NotPregnantAtEnd);
            yield return ("money", "money", figures.Money, difference?.Money);
        }
    }

    private static RateAnswer Of(string name, OwnRate own) => new()
    {
        Rate = name,
        Label = own.Line.Label,
        Value = EstimateContract.Of(own.Estimate, own.Line.NoValue ?? "nothing to count") with { Numerator = own.Line.Numerator, Denominator = own.Line.Denominator, From = "herd" },
        Method = own.Line.Method,
        Figure = own.Figure,
        LeftOut = own.Line.LeftOut.Sum(l => l.Count),
    };

    private static ProgrammeFiguresAnswer Of(WhatIfComparison comparison, WhatIfResult result) => new()
    {
        Name = result.Programme.Name,
        Sentences = WhatIfWords.Sentences(comparison, result),
        Inputs = Of(result.Programme.Rates, result.Programme.Test),
        Course = [.. result.Programme.Course.ByWeekday.Select((course, i) => Of(result.Programme.Course, course, i))],
        Figures =
        [
            .. Figures(result).Select(f => new WhatIfFigureAnswer
            {
                Figure = f.Figure,
                Unit = f.Unit,
                Value = EstimateContract.Of(f.Value, NoCount),
                FromFirst = result.FromFirst is null ? null : EstimateContract.Of(f.FromFirst, NoCount),
            }),
        ],
        Curve = [.. result.Figures.Pregnant.Select((share, day) => (share, day)).Where(p => p.day % CurveStep == 0).Select(p => Of(p.day, p.share!))],
    };

    private static CurvePointAnswer Of(int day, Estimate share) => new()
    {
        Day = day,
        Value = share.Value,
        Low = share.Limits?.Low,
        High = share.Limits?.High,
    };

    private static WhatIfInputsAnswer Of(HerdRates rates, ProgrammeTest test) => new()
    {
        FirstServiceDays = EstimateContract.Of(rates.FirstServiceDays),
        PregnantFirst = EstimateContract.Of(rates.PregnantFirst),
        PregnantLater = EstimateContract.Of(rates.PregnantLater),
        Returns = EstimateContract.Of(rates.Returns),
        Loss = EstimateContract.Of(rates.Loss),
        PregnancyEnds = EstimateContract.Of(rates.Ends),
        Sensitivity = EstimateContract.Of(test.Sensitivity),
        Specificity = EstimateContract.Of(test.Specificity),
        Inconclusive = EstimateContract.Of(test.Inconclusive),
        SecondSample = test.SecondSample,
        Study = test.Study,
    };

    private static CourseAnswer Of(ProgrammeCourse whole, ServiceCourse course, int weekday)
    {
        var day = (NodaTime.IsoDayOfWeek)(weekday + 1);
        return new CourseAnswer
        {
            Weekday = ProgrammeVocabulary.Weekdays.Word(day),
            Test = course.TestDay,
            NextServiceIfOpen = course.Open,
            NextServiceAfterSecondSample = course.OpenAfterSecond,
            Confirmation = course.ConfirmationDay,
            NextServiceIfFoundLate = course.FoundLate,
            Slips = whole.Slips[weekday],
            WaitsForAnswer = whole.WaitsForAnswer.Contains(day) ? true : null,
        };
    }
}
