using System.Text.Json;
using System.Text.Json.Serialization;

namespace ReproLink.Client;

/// <summary>What the generated client cannot know from the document's types alone.</summary>
public partial class ReproLinkClient
{
    // Nothing is ever null in this API: what is absent is left out.
    static partial void UpdateJsonSerializerSettings(JsonSerializerOptions settings) =>
        settings.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
}
