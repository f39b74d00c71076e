namespace ReproLink.Web.Forms;

/// <summary>What a field takes.</summary>
public enum FieldType
{
    Text = 1,
    Date = 2,
    Time = 3,
    Number = 4,
    Choice = 5,
}

/// <summary>One field of a form.</summary>
/// <param name="Name">The property it becomes.</param>
/// <param name="Label">Its label.</param>
/// <param name="Type">What it takes.</param>
public sealed record FormField(string Name, string Label, FieldType Type = FieldType.Text)
{
    /// <summary>Whether it must be filled.</summary>
    public bool Required { get; init; }

    /// <summary>A short hint; absent = the label says it all.</summary>
    public string? Hint { get; init; }

    /// <summary>Of a choice: value and words.</summary>
    public IReadOnlyList<(string Value, string Words)> Choices { get; init; } = [];
}

/// <summary>A form as filled: everything typed, and a sentence for each field that is wrong.</summary>
public sealed record FilledForm(IReadOnlyDictionary<string, string> Values, IReadOnlyDictionary<string, string> Problems)
{
    public static readonly FilledForm Empty = new(new Dictionary<string, string>(), new Dictionary<string, string>());

    public string Value(string name) => Values.GetValueOrDefault(name, "");

    public string? Problem(string name) => Problems.GetValueOrDefault(name);
}
