using ReproLink.Api.Explanations;

namespace ReproLink.Api.WhatIf;

/// <summary>Examples of the document.</summary>
internal static class WhatIfExamples
{
    public const string Asked = """
        {"programmes":[{"name":"As now"},{"name":"Laboratory four days slower","changes":{"laboratory":{"turnaroundWorkingDays":4}}},
           {"name":"Oestrus watched better","rates":{"returns":0.7}}],
         "rates":{"firstServiceDays":70,"pregnantFirst":0.42,"pregnantLater":0.36,"returns":0.5,"loss":0.08},
         "test":{"study":"mayo-2016-plasma","inconclusive":0.05}}
        """;

    public const string Answer = """
        {"herd":"North Ridge","asOf":"2026-10-05","from":"2025-08-07","to":"2026-08-06",
         "rates":[{"rate":"pregnantLater","label":"second and later services","value":{"value":0.36,"low":0.3,"high":0.42,"numerator":90,"denominator":250,"from":"herd"},
           "method":"Wilson score interval","figure":"conception-risk","leftOut":12}],
         "programmes":[{"name":"As now","sentences":[],
           "inputs":{"firstServiceDays":{"value":70,"from":"given"},"pregnantFirst":{"value":0.42,"from":"given"},"pregnantLater":{"value":0.36,"from":"given"},
             "returns":{"value":0.5,"from":"given"},"loss":{"value":0.08,"from":"given"},"pregnancyEnds":{"value":1,"from":"given"},
             "sensitivity":{"value":0.975,"low":0.937,"high":0.99,"numerator":155,"denominator":159,"from":"published"},
             "specificity":{"value":0.944,"low":0.897,"high":0.97,"numerator":152,"denominator":161,"from":"published"},
             "inconclusive":{"value":0.05,"from":"given"},"secondSample":false,"study":"mayo-2016-plasma"},
           "course":[{"weekday":"thursday","test":28,"nextServiceIfOpen":35,"nextServiceAfterSecondSample":49,"confirmation":74,"nextServiceIfFoundLate":98,"slips":0}],
           "figures":[{"figure":"days-open","unit":"days","value":{"value":131.6,"low":131.2,"high":132.9,"from":"computed"}}],
           "curve":[{"day":150,"value":0.71,"low":0.7,"high":0.72}]}],
         "assumptions":["Every cow is bred until she is pregnant and none is culled: days open and shares are those of cows that stay."],
         "cautions":["Prostaglandin (pgf) ends a pregnancy. Prescription only, on a veterinarian's order."]}
        """;

    public static readonly string Csv = $"""
        programme,figure,unit,value,low,high,fromFirst,fromFirstLow,fromFirstHigh,noValue,caution
        Laboratory four days slower,days-open,days,137.9,137.4,139.2,6.3,6.2,6.6,,"{CautionLine.Text}"
        """;
}
