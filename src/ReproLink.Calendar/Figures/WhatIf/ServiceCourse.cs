using NodaTime;

namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>What becomes of a service on one weekday when it fails: how many days later the next service is, by the way it was found out.</summary>
/// <param name="TestDay">Days from service to the first draw.</param>
/// <param name="Open">Days from service to the next when the first test says open.</param>
/// <param name="OpenAfterSecond">The same when a second sample decides.</param>
/// <param name="ConfirmationDay">Days from service to the confirmation of an animal called pregnant.</param>
/// <param name="FoundLate">Days from service to the next when only the confirmation finds her open.</param>
public sealed record ServiceCourse(int TestDay, int Open, int OpenAfterSecond, int ConfirmationDay, int FoundLate)
{
    /// <summary>Given before the answer to every animal that has not returned by the day: days from service, and what.</summary>
    public IReadOnlyList<(int Day, Doses Doses)> BeforeAnswer { get; init; } = [];

    /// <summary>Given to an animal the first test calls open.</summary>
    public Doses AfterAnswer { get; init; }
}

/// <summary>Doses of each agent, and inserts, that one course of a protocol takes.</summary>
/// <param name="Gnrh">GnRH.</param>
/// <param name="Pgf">Prostaglandin.</param>
/// <param name="Inserts">Progesterone inserts.</param>
public readonly record struct Doses(double Gnrh, double Pgf, double Inserts)
{
    /// <summary>Both together.</summary>
    public static Doses operator +(Doses a, Doses b) => new(a.Gnrh + b.Gnrh, a.Pgf + b.Pgf, a.Inserts + b.Inserts);

    /// <summary>So many times.</summary>
    public static Doses operator *(double times, Doses doses) => new(times * doses.Gnrh, times * doses.Pgf, times * doses.Inserts);
}

/// <summary>
/// A programme as the what-if sees it: the course of a service on each weekday, made by the calendar that plans real animals, and
/// what it takes.
/// </summary>
public sealed record ProgrammeCourse
{
    /// <summary>The courses of a service, Monday first; seven.</summary>
    public required IReadOnlyList<ServiceCourse> ByWeekday { get; init; }

    /// <summary>Share of first services on each weekday, Monday first; they add up to 1.</summary>
    public required IReadOnlyList<double> FirstServiceWeekdays { get; init; }

    /// <summary>Days from calving to first service where the programme does it by protocol; absent = on observed oestrus.</summary>
    public double? FirstServiceDays { get; init; }

    /// <summary>The whole protocol, given to an animal whose plan begins when she is found open.</summary>
    public Doses Whole { get; init; }

    /// <summary>First service by protocol.</summary>
    public Doses FirstService { get; init; }

    /// <summary>Weekdays of service whose plan waits for the answer because no start is feasible before it (S2).</summary>
    public IReadOnlyList<IsoDayOfWeek> WaitsForAnswer { get; init; } = [];

    /// <summary>Start weekdays that services of a weekday slip (S2), Monday first.</summary>
    public IReadOnlyList<int> Slips { get; init; } = [0, 0, 0, 0, 0, 0, 0];

    /// <summary>Mean day of the first draw.</summary>
    public double MeanTestDay => ByWeekday.Average(c => c.TestDay);

    /// <summary>Mean day of the confirmation.</summary>
    public double MeanConfirmationDay => ByWeekday.Average(c => c.ConfirmationDay);

    /// <summary>Whether an agent was counted from a protocol.</summary>
    public bool CountsDoses { get; init; }

    /// <summary>The same days whatever the weekday, given by whoever asks; doses are not counted.</summary>
    /// <param name="course">The days.</param>
    public static ProgrammeCourse Given(ServiceCourse course) => new()
    {
        ByWeekday = [.. Enumerable.Repeat(course, 7)],
        FirstServiceWeekdays = [.. Enumerable.Repeat(1 / 7.0, 7)],
    };
}
