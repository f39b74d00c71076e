using System.Text.Json;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Reading;

/// <summary>One item of a batch as it came.</summary>
/// <param name="Index">Its place, from 0.</param>
/// <param name="Element">The item.</param>
/// <param name="Line">Its line in a CSV body, the header being line 1.</param>
/// <param name="Unreadable">Why the line could not even be taken apart.</param>
internal readonly record struct BatchItem(int Index, JsonElement Element, int? Line, FieldProblem? Unreadable)
{
    /// <summary>The line as received; absent = the element is what was received.</summary>
    public string? Raw { get; init; }
}
