namespace ReproLink.Web.Forms;

/// <summary>What was typed into a form and what is wrong with it, so that it is shown again with nothing lost.</summary>
/// <param name="Values">What was typed, by field.</param>
/// <param name="Problems">A sentence for each field that is wrong.</param>
/// <param name="Summary">A sentence about the whole form; absent = nothing.</param>
public sealed record FormState(IReadOnlyDictionary<string, string> Values, IReadOnlyDictionary<string, string> Problems, string? Summary)
{
    /// <summary>A form nobody sent yet.</summary>
    public static readonly FormState Empty = new(new Dictionary<string, string>(), new Dictionary<string, string>(), null);

    /// <summary>What was typed; else the usual.</summary>
    public string? Value(string field, string? usual = null) => Values.TryGetValue(field, out var value) ? value : usual;

    /// <summary>What is wrong with a field; null = nothing.</summary>
    public string? Problem(string field) => Problems.TryGetValue(field, out var problem) ? problem : null;

    /// <summary>Whether a box was ticked, or a value of several chosen; else the usual.</summary>
    public bool Has(string field, bool usual) => Values.Count == 0 ? usual : Values.ContainsKey(field);

    /// <summary>Text that makes a form that is sent twice be done once.</summary>
    public static string Once => Guid.NewGuid().ToString("N");
}
