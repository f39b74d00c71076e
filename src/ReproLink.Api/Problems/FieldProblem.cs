using System.Text.Json;

namespace ReproLink.Api.Problems;

/// <summary>What is wrong with one field.</summary>
/// <param name="Type">The kind of problem.</param>
/// <param name="Field">Path of the field in the object read, e.g. <c>date</c> or <c>identifiers/0/scheme</c>; empty = the whole object.</param>
/// <param name="Value">The value as sent; absent when there was none.</param>
/// <param name="Allowed">What is allowed.</param>
/// <param name="Detail">A sentence for a person.</param>
public sealed record FieldProblem(ProblemType Type, string Field, object? Value, string Allowed, string Detail);

/// <summary>Collects every problem of one object, so that a sender can mend them all at once.</summary>
public sealed class FieldProblems
{
    private const int LongestEcho = 200;
    private List<FieldProblem>? _list;

    public bool Any => _list is not null;

    public IReadOnlyList<FieldProblem> List => _list ?? [];

    public void Add(ProblemType type, string field, object? value, string allowed, string detail) =>
        (_list ??= []).Add(new FieldProblem(type, field, Echo(value), allowed, detail));

    // What was sent is answered as it was sent, but a huge value is not sent back whole.
    private static object? Echo(object? value) => value switch
    {
        JsonElement { ValueKind: JsonValueKind.Null or JsonValueKind.Undefined } => null,
        JsonElement json => json.GetRawText() is { Length: > LongestEcho } raw ? Cut(raw) : json.Clone(),
        string { Length: > LongestEcho } text => Cut(text),
        _ => value,
    };

    // Never between the two halves of one character.
    private static string Cut(string text) => text[..(char.IsHighSurrogate(text[LongestEcho - 1]) ? LongestEcho - 1 : LongestEcho)] + "…";
}
