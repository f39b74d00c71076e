using ReproLink.Calendar.Explanations;

namespace ReproLink.Api.Explanations;

/// <summary>The cautions for forms without room.</summary>
internal static class CautionLine
{
    /// <summary>All of them in one line.</summary>
    public static readonly string Text = string.Join(" ", Cautions.All);
}
