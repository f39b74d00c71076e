using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.ProgrammeChecks;

/// <summary>What the programme check found.</summary>
public sealed record CheckAnswer
{
    /// <summary>Whether no chain is infeasible; an infeasible programme is saved only as a draft.</summary>
    public required bool Feasible { get; init; }

    /// <summary>The chains of each weekday.</summary>
    public required IReadOnlyList<CheckChainAnswer> Chains { get; init; }

    /// <summary>All that was found, in one list.</summary>
    public required IReadOnlyList<CheckFindingAnswer> Findings { get; init; }
}

/// <summary>The dated chain of one weekday.</summary>
public sealed record CheckChainAnswer
{
    /// <summary>What it begins with.</summary>
    /// <example>service</example>
    [Words("service", "calving")]
    public required string From { get; init; }

    /// <summary>True: the chain of heifers.</summary>
    public bool? Heifer { get; init; }

    /// <summary>Its weekday.</summary>
    /// <example>thursday</example>
    public required string Weekday { get; init; }

    /// <summary>Its date in the week that was tried.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>The protocol.</summary>
    /// <example>ovsynch-56</example>
    public required string Protocol { get; init; }

    /// <summary>The steps.</summary>
    public required IReadOnlyList<CheckStepAnswer> Steps { get; init; }

    /// <summary>First sampling day on which she may be bled.</summary>
    public LocalDate? FirstDraw { get; init; }

    /// <summary>Last sampling day whose answer is back before the first gated step.</summary>
    public LocalDate? LastDraw { get; init; }

    /// <summary>The day the last draw leaves the farm.</summary>
    public LocalDate? Dispatched { get; init; }

    /// <summary>The day its answer is expected.</summary>
    public LocalDate? Result { get; init; }

    /// <summary>The time of that answer.</summary>
    public LocalTime? ResultTime { get; init; }

    /// <summary>The first step that needs the answer.</summary>
    public CheckStepAnswer? FirstGated { get; init; }

    /// <summary>The insemination.</summary>
    public CheckStepAnswer? Insemination { get; init; }

    /// <summary>Days from service (or calving) to the insemination.</summary>
    /// <example>35</example>
    public int? IntervalDays { get; init; }

    /// <summary>Days between the first and the last draw that serve the step.</summary>
    /// <example>0</example>
    public int? SlackDays { get; init; }

    /// <summary>Start weekdays it slipped.</summary>
    /// <example>0</example>
    public required int Slips { get; init; }
}

/// <summary>One dated step.</summary>
public sealed record CheckStepAnswer
{
    /// <summary>Its id in the protocol.</summary>
    /// <example>pgf-1</example>
    public required string Id { get; init; }

    /// <summary>What is done.</summary>
    /// <example>pgf</example>
    [Words("gnrh", "pgf", "insert-in", "insert-out", "inseminate", "watch-oestrus")]
    public required string Step { get; init; }

    /// <summary>When.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>Local time.</summary>
    public required LocalTime Time { get; init; }

    /// <summary>Whether it needs the answer.</summary>
    public required bool Gated { get; init; }
}

/// <summary>One finding.</summary>
public sealed record CheckFindingAnswer
{
    /// <summary>What the chain begins with.</summary>
    /// <example>service</example>
    [Words("service", "calving")]
    public required string From { get; init; }

    /// <summary>True: the chain of heifers.</summary>
    public bool? Heifer { get; init; }

    /// <summary>Weekday of that service or calving.</summary>
    /// <example>friday</example>
    public required string Weekday { get; init; }

    /// <summary>What is wrong.</summary>
    /// <example>slip</example>
    [Words("infeasible", "slip", "weekend-step", "off-hours-step")]
    public required string Problem { get; init; }

    /// <summary>A sentence.</summary>
    public required string Text { get; init; }

    /// <summary>The step it is about.</summary>
    public string? Step { get; init; }

    /// <summary>A change that mends it; absent = none of those tried does.</summary>
    public CheckSuggestionAnswer? Suggestion { get; init; }
}

/// <summary>A change that mends a finding: the check was run on the changed programme.</summary>
public sealed record CheckSuggestionAnswer
{
    /// <summary>The property of the programme.</summary>
    /// <example>week.samplingDays</example>
    public required string Property { get; init; }

    /// <summary>Its new value; several are separated by commas.</summary>
    /// <example>monday, wednesday, thursday</example>
    public required string Value { get; init; }

    /// <summary>A sentence.</summary>
    /// <example>draw blood on Wednesday as well</example>
    public required string Text { get; init; }
}
