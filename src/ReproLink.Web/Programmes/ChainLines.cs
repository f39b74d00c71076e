using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Programmes;

/// <summary>Chains of one kind: of cows served, of heifers served, or of cows that calved.</summary>
/// <param name="Name">Its name in ids and keys: <c>cows</c>, <c>heifers</c> or <c>calvings</c>.</param>
/// <param name="Chains">One a weekday.</param>
public sealed record ChainGroup(string Name, IReadOnlyList<CheckChain> Chains)
{
    /// <summary>The groups of a check; those without chains are left out.</summary>
    public static IReadOnlyList<ChainGroup> Of(CheckedProgramme check)
    {
        ArgumentNullException.ThrowIfNull(check);
        return [.. check.Chains.GroupBy(NameOf).Select(g => new ChainGroup(g.Key, [.. g]))];
    }

    private static string NameOf(CheckChain chain) => chain.From == ChainFrom.Calving ? "calvings" : chain.Heifer ? "heifers" : "cows";
}

/// <summary>A mark of a chain: what happens how many days after its beginning.</summary>
/// <param name="Kind">What, as a key and a class: <c>begin</c>, <c>first</c>, <c>draw</c>, <c>sent</c>, <c>result</c>, <c>gated</c>, <c>inseminate</c>.</param>
/// <param name="On">When.</param>
/// <param name="Words">In words.</param>
public sealed record ChainMark(string Kind, Day On, string Words);

/// <summary>A chain in marks and sentences.</summary>
public static class ChainLines
{
    /// <summary>The marks in the order in which they happen.</summary>
    public static IReadOnlyList<ChainMark> Marks(CheckChain chain)
    {
        ArgumentNullException.ThrowIfNull(chain);
        var marks = new List<ChainMark> { new("begin", chain.On, T(chain.From == ChainFrom.Calving ? "chain.calved" : "chain.served", Say.Weekday(chain.Weekday))) };
        if (chain.Steps.Count > 0 && chain.Steps[0].Id != chain.FirstGated?.Id)
        {
            marks.Add(Step("first", chain.Steps[0]));
        }

        if (chain.LastDraw is { } draw)
        {
            marks.Add(new("draw", draw, T("chain.draw", Say.ShortDay(draw))));
        }

        if (chain.Dispatched is { } sent && sent != chain.LastDraw)
        {
            marks.Add(new("sent", sent, T("chain.sent", Say.ShortDay(sent))));
        }

        if (chain.Result is { } result)
        {
            marks.Add(new("result", Day.From(result.Date), T("chain.result", Moment(result))));
        }

        if (chain.FirstGated is { } gated && gated.Id != chain.Insemination?.Id)
        {
            marks.Add(Step("gated", gated));
        }

        if (chain.Insemination is { } insemination)
        {
            marks.Add(Step("inseminate", insemination));
        }

        return [.. marks.OrderBy(m => m.On)];
    }

    /// <summary>A chain in one sentence, for who cannot see the picture.</summary>
    public static string Sentence(CheckChain chain) => string.Join(", ", Marks(chain).Select(m => m.Words))
        + string.Concat(chain.Findings.Select(f => "; " + Finding(f))) + ".";

    /// <summary>A finding in a sentence.</summary>
    public static string Finding(CheckFinding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding.Problem switch
        {
            CheckProblem.Infeasible => T("finding.infeasible"),
            CheckProblem.Slip => T("finding.slip"),
            CheckProblem.WeekendStep => T("finding.weekend", Say.Of(finding.Step!.Kind), Say.Weekday(finding.Step.At.Date.DayOfWeek)),
            _ => T("finding.offHours", Say.Of(finding.Step!.Kind), Say.Clock(finding.Step.At.TimeOfDay)),
        };
    }

    /// <summary>What a suggestion would change, in words.</summary>
    public static string Suggestion(CheckSuggestion suggestion, ProgrammeModel model)
    {
        ArgumentNullException.ThrowIfNull(suggestion);
        ArgumentNullException.ThrowIfNull(model);
        var setting = SettingBook.Find(suggestion.Property)!;
        return T("check.fill", T(setting.Key), SettingWords.Of(setting, Values(setting, suggestion.Value), model.NameOf));
    }

    /// <summary>The values of a suggestion as its field takes them.</summary>
    public static IReadOnlyList<string> Values(Setting setting, string value)
    {
        ArgumentNullException.ThrowIfNull(setting);
        ArgumentNullException.ThrowIfNull(value);
        return setting.Kind == SettingKind.Weekdays ? value.Split(", ") : [value];
    }

    /// <summary>A day and a time.</summary>
    public static string Moment(LocalDateTime at) => $"{Say.ShortDay(Day.From(at.Date))} {Say.Clock(at.TimeOfDay)}";

    /// <summary>The name of a step of a chain with its day and time; a dash for none.</summary>
    public static string StepOf(ChainStep? step) => step is null ? "–" : $"{Say.Of(step.Kind)}, {Moment(step.At)}";

    /// <summary>A number for a drawing.</summary>
    public static string Svg(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);

    private static ChainMark Step(string kind, ChainStep step) => new(kind, Day.From(step.At.Date), T("chain." + kind, Say.Of(step.Kind), Moment(step.At)));
}
