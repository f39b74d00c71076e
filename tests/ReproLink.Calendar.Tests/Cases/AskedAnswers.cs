using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.TestSupport.Histories;
using static ReproLink.Calendar.Tests.Cases.Answers;

namespace ReproLink.Calendar.Tests.Cases;

/// <summary><c>asked DAY [as-of DAY] [known-at INSTANT] [of ANIMAL]</c>: one animal's status and answer on a day.</summary>
internal sealed class AskedAnswers
{
    private readonly Herd _herd;
    private readonly Day _on;
    private readonly AnimalState _state;
    private readonly WindowAnswer _answer;
    private readonly FoldTrace _trace = new();

    public AskedAnswers(Herd herd, Words words)
    {
        _herd = herd;
        _on = words.NeedDay("the day asked about");
        var asOf = words.DayValue("as-of") ?? _on;
        Instant? knownAt = words.InstantValue("known-at");
        _state = herd.Fold(words.Value("of") ?? herd.Animals.First(), asOf, knownAt, _trace);
        _answer = TestWindows.Answer(_state, herd.Rules, _on);
    }

    public string Of(string key, Words words) => key switch
    {
        "status" => StatusWords.Of(_state.Status),
        "underneath" => StatusWords.Of(_state.Underneath),
        "conflicts" => _state.Conflicts.Count == 0 ? "none" : string.Concat(_state.Conflicts.Select(c => c.Letter).Distinct().Order()),
        "exists" => Word(_state.Exists),
        "registered" => Word(_state.Card is not null),
        "heifer" => Word(_state.IsHeifer),
        "parity" => Word(_state.Parity),
        "pen" => _state.Card?.Pen ?? "none",
        "days-in-milk" => Word(_state.DaysInMilk(_on)),
        "days-post-service" => Word(_state.DaysPostService(_on)),
        "presumed-pregnant" => Word(_state.Presumed is not null),
        "decides" => Judged(words.Take("the fact")),
        "warned" => Warned(words.Take("the fact")),
        _ => OfWindow(key) ?? OfPregnancy(key) ?? throw words.Wrong($"there is no key '{key}'"),
    };

    private string? OfWindow(string key)
    {
        var verdict = _answer.Verdict;
        return key switch
        {
            "answer" => verdict.Answer is { } answer ? AnswerWords.Of(answer) : "outside",
            "reason" => verdict.Answer is null ? "outside" : AnswerWords.Of(verdict.Reason, verdict.Need),
            "need" => verdict.Need is { } need ? AnswerWords.Of(need) : "none",
            "overdue" => Word(verdict.Overdue),
            "opens" => Word(verdict.Window?.Opens),
            "target" => Word(verdict.Window?.Target),
            "closes" => Word(verdict.Window?.Closes),
            "changes-on" => Word(_answer.ChangesOn),
            "serves" => verdict.Serves is { } step ? $"{StepWord(step.Step)} {step.Date}" : "none",
            "rules" => string.Join(' ', _answer.Reasons.Select(r => r.Rule.Replace(" ", "", StringComparison.Ordinal))),
            _ => null,
        };
    }

    private string? OfPregnancy(string key)
    {
        var dates = PregnancyDates.Of(_state, _herd.Rules);
        return key switch
        {
            "dated-from" => Word(_state.Pregnancy?.From),
            "dated-to" => Word(_state.Pregnancy?.To),
            "due" => Word(dates?.Due),
            "due-from" => Word(dates?.DueFrom),
            "due-to" => Word(dates?.DueTo),
            "dry-off" => Word(dates?.DryOff),
            _ => null,
        };
    }

    // What one result decided, and by which rule: "open T5".
    private string Judged(string sourceId) => _trace.Of(_herd.Fact(sourceId)) is { } judged
        ? $"{judged.Decides.ToString().ToLowerInvariant()} {judged.Reasons[0].Rule.Replace(" ", "", StringComparison.Ordinal)}"
        : "unjudged";

    private string Warned(string sourceId)
    {
        var id = _herd.Fact(sourceId);
        var rules = _trace.Notes.Where(n => n.Fact == id).Select(n => n.Reason.Rule.Replace(" ", "", StringComparison.Ordinal)).ToList();
        return rules.Count == 0 ? "no" : string.Join(' ', rules);
    }

    public static string StepWord(StepKind kind) => kind switch
    {
        StepKind.Gnrh => "gnrh",
        StepKind.Pgf => "pgf",
        StepKind.Inseminate => "inseminate",
        _ => kind.ToString(),
    };
}
