using ReproLink.Client;

namespace TypedClient;

/// <summary>What came back, in lines.</summary>
internal static class Printing
{
    public static void Answers(TestResultAnswers answers)
    {
        foreach (var line in answers.Results)
        {
            Console.WriteLine(line.Status switch
            {
                TestResultAnswerStatus.Held => $"{line.SourceId}: held for a person, {line.Reason}",
                TestResultAnswerStatus.Rejected => $"{line.SourceId}: rejected, {line.Problem?.Field} may be {line.Problem?.Allowed}",
                var status => $"{line.SourceId}: {status}, {line.Animal} decides {line.Decides}",
            });
            foreach (var reason in line.Reasons ?? [])
            {
                Console.WriteLine($"  {reason.Rule} {reason.Text}");
            }
        }
    }

    /// <summary>What each line of an answer is stored as.</summary>
    public static IEnumerable<string?> Facts(TestResultAnswers answers) => answers.Results.Select(line => line.FactId ?? line.HeldId);

    /// <summary>The cautions first, then the steps of some animals.</summary>
    public static void Work(WorkCalendarAnswer calendar, IReadOnlyCollection<string> animals)
    {
        foreach (var caution in calendar.Cautions)
        {
            Console.WriteLine($"caution: {caution}");
        }

        foreach (var item in calendar.Items.Where(item => item.Animal is { } animal && animals.Contains(animal)))
        {
            var clause = item.Clause is { } why ? $", {why}" : "";
            Console.WriteLine($"{item.Date:O} {item.Time ?? item.Session?.ToString()} {item.Animal} {item.Step?.ToString() ?? item.Kind.ToString()}: {item.State}{clause}");
        }
    }

    /// <summary>Asks for what is refused, and prints how.</summary>
    public static async Task Refusal(Func<Task> ask)
    {
        try
        {
            await ask();
            Console.WriteLine("not refused");
        }
        catch (ApiException<ProblemBody> refused)
        {
            Problem(refused.Result);
        }
    }

    public static void Problem(ProblemBody problem)
    {
        Console.WriteLine($"refused: {problem.Status} {problem.Title}");
        foreach (var error in problem.Errors ?? [])
        {
            Console.WriteLine($"  {error.Field} is {error.Value}; allowed: {error.Allowed}");
        }
    }
}
