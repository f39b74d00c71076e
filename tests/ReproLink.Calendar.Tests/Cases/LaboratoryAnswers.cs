using ReproLink.Calendar.Dates;
using ReproLink.TestSupport.Histories;
using static ReproLink.Calendar.Tests.Cases.Answers;

namespace ReproLink.Calendar.Tests.Cases;

/// <summary><c>draw DAY</c>: the way of a sample drawn that day (L1).</summary>
internal sealed class DrawAnswers(Herd herd, Words words)
{
    private readonly Day _drawn = words.NeedDay("the day of the draw");

    public string Of(string key, Words line) => key switch
    {
        "leaves" => Word(herd.Rules.Laboratory.Report(_drawn)?.Dispatched),
        "reported" => herd.Rules.Laboratory.Report(_drawn) is { } report ? $"{report.Day} {report.Time:HH:mm}" : "none",
        "overdue-from" => Word(herd.Rules.Laboratory.OverdueFrom(_drawn)),
        _ => throw line.Wrong($"there is no key '{key}'"),
    };
}

/// <summary><c>last-draw OPENS before DAY TIME</c>: the last useful draw for a step (L2).</summary>
internal sealed class LastDrawAnswers
{
    private readonly Day? _draw;

    public LastDrawAnswers(Herd herd, Words words)
    {
        var opens = words.NeedDay("the first day");
        if (!words.Flag("before")) throw words.Wrong("'before' is missing");
        var day = words.NeedDay("the step's day");
        _draw = herd.Rules.Laboratory.LastUsefulDraw(opens, day, words.TakeTime() ?? throw words.Wrong("the step's time is missing"));
    }

    public string Of(string key, Words line) => key == "is" ? Word(_draw) : throw line.Wrong($"there is no key '{key}'");
}
