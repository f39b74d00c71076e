namespace ReproLink.Web.WhatIf;

/// <summary>A form as it was typed, with what is wrong at each field: nothing typed is lost.</summary>
/// <param name="Typed">Values by field.</param>
/// <param name="Problems">Sentences by field.</param>
public sealed record TypedForm(IReadOnlyDictionary<string, IReadOnlyList<string>> Typed, IReadOnlyDictionary<string, string> Problems)
{
    /// <summary>A form nobody filled in.</summary>
    public static readonly TypedForm Empty = new(new Dictionary<string, IReadOnlyList<string>>(), new Dictionary<string, string>());

    /// <summary>Whether anything was sent.</summary>
    public bool Sent => Typed.Count > 0;

    /// <summary>What was typed into a field; what was not sent is <paramref name="usual"/>.</summary>
    public string? Value(string field, string? usual = null) => Typed.TryGetValue(field, out var values) ? values[0] : usual;

    /// <summary>Whether a choice of several was made; an empty choice is not sent at all, so <paramref name="sentWith"/> says whether its part of the form was.</summary>
    public bool Has(string field, string value, bool usual, string sentWith) =>
        Typed.ContainsKey(sentWith) || Typed.ContainsKey(field) ? Typed.TryGetValue(field, out var values) && values.Contains(value) : usual;

    /// <summary>What is wrong at a field.</summary>
    public string? Problem(string field) => Problems.GetValueOrDefault(field);
}
