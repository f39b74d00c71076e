using System.Text.Json;
using System.Text.Json.Nodes;
using ReproLink.Api.Composition;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Api.WhatIf;

/// <summary>The herd's programme with some properties changed, as a programme is sent: what is not named stays as it is.</summary>
internal static class ProgrammeChanges
{
    /// <summary>The changed programme; null when the changes are no object, which is then reported. Without changes it is the herd's.</summary>
    public static JsonDocument? Merge(ProgrammeVersion current, ObjectReader reader, string name)
    {
        // As sent: the settings alone, in force from the day it is asked on.
        var merged = JsonSerializer.SerializeToNode(ProgrammeMapping.Input(current.Programme), JsonSetup.Options)!.AsObject();
        if (reader.Has(name))
        {
            if (reader.Raw(name) is not { } changes)
            {
                return null;
            }

            Merge(merged, JsonObject.Create(changes)!);
        }

        return JsonSerializer.SerializeToDocument(merged);
    }

    private static void Merge(JsonObject into, JsonObject changes)
    {
        foreach (var (property, value) in changes)
        {
            // Minutes belong to a test on the farm, and go with it.
            if (property == "kind" && into[property]?.ToString() != value?.ToString())
            {
                into.Remove("minutes");
            }

            if (value is JsonObject inner && into[property] is JsonObject kept)
            {
                Merge(kept, inner);
            }
            else
            {
                into[property] = value?.DeepClone();
            }
        }
    }
}
