using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Testing;
using ReproLink.TestSupport.Histories;
using static ReproLink.Calendar.Tests.Cases.Answers;

namespace ReproLink.Calendar.Tests.Cases;

/// <summary><c>list FROM TO [as-of DAY] [pen PEN]</c>: a bleed list.</summary>
internal sealed class ListAnswers
{
    private readonly Herd _herd;
    private readonly BleedList _list;

    public ListAnswers(Herd herd, Words words)
    {
        _herd = herd;
        var from = words.NeedDay("the first day");
        var to = words.NeedDay("the last day");
        var asOf = words.DayValue("as-of") ?? from;
        var pen = words.Value("pen");
        _list = BleedLists.Make([.. herd.Animals.Select(a => herd.Fold(a, asOf, null))], herd.Rules, from, to, asOf, pen);
    }

    public string Of(string key, Words words) => key switch
    {
        "days" => Joined(_list.Days.Select(d => d.Date.ToString())),
        "day" => Joined(Animals(words.NeedDay("the day"))),
        "needles" => Word(Find(words.NeedDay("the day"))?.Needles),
        "rest" => Rest(words.Take("the answer"), words.Take("the reason")),
        "groups" => Word(_list.NotListed.Count),
        "once" => Word(IsEveryAnimalOnce()),
        "overdue" => Word(LineOf(words).Answer.Verdict.Overdue),
        "moved" => Word(LineOf(words).Moved),
        "serves" => LineOf(words).Serves is { } step ? $"{AskedAnswers.StepWord(step.Step)} {step.Date}" : "none",
        "days-post-service" => Word(LineOf(words) is var line ? line.State.DaysPostService(line.Answer.On) : null),
        _ => throw words.Wrong($"there is no key '{key}'"),
    };

    private BleedDay? Find(Day day) => _list.Days.FirstOrDefault(d => d.Date == day);

    private IEnumerable<string> Animals(Day day) => Find(day)?.Animals.Select(a => a.State.Animal) ?? [];

    private string Rest(string answer, string reason) => Joined(_list.NotListed
        .Where(r => AnswerWords.Of(r.Answer) == answer && r.Reason == reason).SelectMany(r => r.Animals).Select(a => a.Animal));

    private BleedLine LineOf(Words words)
    {
        var animal = words.Take("the animal");
        return _list.Days.SelectMany(d => d.Animals).FirstOrDefault(l => l.State.Animal == animal) ?? throw words.Wrong($"{animal} is not listed");
    }

    private bool IsEveryAnimalOnce()
    {
        var shown = _list.Days.SelectMany(d => d.Animals).Select(l => l.State.Animal).Concat(_list.NotListed.SelectMany(r => r.Animals).Select(a => a.Animal));
        return shown.Order(StringComparer.Ordinal).SequenceEqual(_herd.Animals.Order(StringComparer.Ordinal));
    }

    private static string Joined(IEnumerable<string> words) => string.Join(' ', words) is { Length: > 0 } text ? text : "none";
}
