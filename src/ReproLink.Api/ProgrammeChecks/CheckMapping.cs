using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Api.ProgrammeChecks;

internal static class CheckMapping
{
    public static CheckAnswer Answer(CheckedProgramme check) => new()
    {
        Feasible = check.IsFeasible,
        Chains = [.. check.Chains.Select(Chain)],
        Findings = Findings(check),
    };

    public static IReadOnlyList<CheckFindingAnswer> Findings(CheckedProgramme check) =>
        [.. check.Chains.SelectMany(chain => chain.Findings.Select(finding => Finding(chain, finding)))];

    private static CheckChainAnswer Chain(CheckChain chain) => new()
    {
        From = From(chain),
        Heifer = chain.Heifer ? true : null,
        Weekday = Weekday(chain),
        Date = chain.On.Date,
        Protocol = chain.Protocol,
        Steps = [.. chain.Steps.Select(Step)],
        FirstDraw = chain.FirstDraw?.Date,
        LastDraw = chain.LastDraw?.Date,
        Dispatched = chain.Dispatched?.Date,
        Result = chain.Result?.Date,
        ResultTime = chain.Result?.TimeOfDay,
        FirstGated = chain.FirstGated is { } gated ? Step(gated) : null,
        Insemination = chain.Insemination is { } insemination ? Step(insemination) : null,
        IntervalDays = chain.IntervalDays,
        SlackDays = chain.SlackDays,
        Slips = chain.Slips,
    };

    private static CheckStepAnswer Step(ChainStep step) => new()
    {
        Id = step.Id,
        Step = ProtocolWords.Of(step.Kind),
        Date = step.At.Date,
        Time = step.At.TimeOfDay,
        Gated = step.Gated,
    };

    private static CheckFindingAnswer Finding(CheckChain chain, CheckFinding finding) => new()
    {
        From = From(chain),
        Heifer = chain.Heifer ? true : null,
        Weekday = Weekday(chain),
        Problem = finding.Problem switch
        {
            CheckProblem.Infeasible => "infeasible",
            CheckProblem.Slip => "slip",
            CheckProblem.WeekendStep => "weekend-step",
            _ => "off-hours-step",
        },
        Text = finding.Text,
        Step = finding.Step?.Id,
        Suggestion = finding.Suggestion is { } suggestion
            ? new CheckSuggestionAnswer { Property = suggestion.Property, Value = suggestion.Value, Text = suggestion.Text }
            : null,
    };

    private static string From(CheckChain chain) => chain.From == ChainFrom.Service ? "service" : "calving";

    private static string Weekday(CheckChain chain) => chain.Weekday.ToString().ToLowerInvariant();
}
