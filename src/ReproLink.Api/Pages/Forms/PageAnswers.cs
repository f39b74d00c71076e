using System.Text.Json;
using ReproLink.Api.Composition;
using ReproLink.Api.Idempotency;
using ReproLink.Records;

namespace ReproLink.Api.Pages.Forms;

/// <summary>Answers as written, read again: what was done before under the same key answers a page as it did then.</summary>
internal static class PageAnswers
{
    public static T Read<T>(DeskAnswer answer) => Read<T>(answer.Stored);

    public static T Read<T>(StoredAnswer answer) => JsonSerializer.Deserialize<T>(answer.Body, JsonSetup.Options)!;
}
