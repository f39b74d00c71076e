using System.Text.Json;

namespace ReproLink.Api.Pages;

/// <summary>A form that could not be taken yet: where it was going and all that was typed in it.</summary>
/// <param name="Action">The address it was sent to.</param>
/// <param name="Fields">Names and values in the order sent, without what proves where a form comes from.</param>
/// <param name="Files">Names of the files that were chosen; a page cannot choose them again for her.</param>
internal sealed record KeptForm(string Action, IReadOnlyList<KeptField> Fields, IReadOnlyList<string> Files)
{
    /// <summary>The name of the hidden field that carries it through signing in.</summary>
    public const string Name = "kept-form";

    private const string Token = "__RequestVerificationToken";

    public static KeptForm Of(HttpRequest request, IFormCollection form) => new(
        request.Path + request.QueryString,
        [.. form.Where(f => f.Key != Token).SelectMany(f => f.Value.Select(v => new KeptField(f.Key, v ?? "")))],
        [.. form.Files.Select(f => f.FileName)]);

    public string Write() => JsonSerializer.Serialize(this, KeptJson.Default.KeptForm);

    /// <summary>What a sign-in page carried; null = nothing, or nothing of ours.</summary>
    public static KeptForm? Read(string? text)
    {
        if (string.IsNullOrEmpty(text))
        {
            return null;
        }

        try
        {
            return JsonSerializer.Deserialize(text, KeptJson.Default.KeptForm) is { Action: { } action, Fields: not null, Files: not null } kept
                && SignInPages.Local(action) == action ? kept : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

/// <summary>One field of a kept form.</summary>
internal sealed record KeptField(string Name, string Value);

[System.Text.Json.Serialization.JsonSerializable(typeof(KeptForm))]
internal sealed partial class KeptJson : System.Text.Json.Serialization.JsonSerializerContext;
