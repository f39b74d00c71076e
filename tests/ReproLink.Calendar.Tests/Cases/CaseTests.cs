namespace ReproLink.Calendar.Tests.Cases;

/// <summary>The case files beside this class, one test a case.</summary>
public sealed class CaseTests
{
    private static readonly Dictionary<string, Case> All =
        CaseFile.ReadAll(Path.Combine(AppContext.BaseDirectory, "Cases")).ToDictionary(c => c.Id);

    public static TheoryData<string, string> Cases()
    {
        var rows = new TheoryData<string, string>();
        foreach (var one in All.Values) rows.Add(one.Id, one.Name);
        return rows;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Case(string id, string name)
    {
        var failures = Answers.Failures(All[id]);
        Assert.True(failures.Count == 0, $"{id} {name}\nwhy {All[id].Why}\n{string.Join('\n', failures)}");
    }
}
