using ReproLink.Api.Explanations;

namespace ReproLink.Api.Figures;

/// <summary>Examples of the document.</summary>
internal static class FigureExamples
{
    public const string Json = """
        {"herd":"North Ridge","asOf":"2026-10-05","from":"2025-10-14","to":"2026-10-05","waitingPeriod":60,
         "figures":[{"figure":"conception-risk","name":"Conception risk","section":"services","rule":"services",
           "definition":"Services by which the cow became pregnant, of the services of cows in the period whose outcome is known.",
           "trap":"A service without an answer is left out, never counted as open.",
           "lines":[{"line":"all","label":"all services","unit":"share","numerator":38,"denominator":97,"value":0.39175257731958763,
             "interval":{"low":0.30051291976344174,"high":0.4912393987},"method":"Wilson score interval",
             "leftOut":[{"reason":"no-answer-yet","text":"served, no answer yet","count":12}]}]}],
         "cautions":["Prostaglandin ends a pregnancy."]}
        """;

    public static readonly string Csv = $"""
        figure,name,rule,line,label,unit,numerator,denominator,value,median,low,high,method,noValue,pending,leftOut,from,to,asOf,waitingPeriod,caution
        conception-risk,Conception risk,services,all,all services,share,38,97,0.39175257731958763,,0.30051291976344174,0.4912393987,Wilson score interval,,false,12 no-answer-yet,2025-10-14,2026-10-05,2026-10-05,60,"{CautionLine.Text}"
        """;

    public const string Animals = """
        {"figure":"conception-risk","from":"2025-10-14","to":"2026-10-05","asOf":"2026-10-05",
         "animals":[{"line":"all","animal":"1042","date":"2026-09-10","counts":"left-out","reason":"no-answer-yet","fact":"f_0c5t9x2m7h1ka"}],
         "cautions":["Prostaglandin ends a pregnancy."]}
        """;

    public static readonly string AnimalsCsv = $"""
        figure,line,animal,date,counts,reason,days,fact,caution
        conception-risk,all,1042,2026-09-10,left-out,no-answer-yet,,f_0c5t9x2m7h1ka,"{CautionLine.Text}"
        """;
}
