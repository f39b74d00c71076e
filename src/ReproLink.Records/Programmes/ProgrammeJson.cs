using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Records;

/// <summary>A programme as the store keeps it: complete, so that a default changed later never changes a saved version.</summary>
internal static class ProgrammeJson
{
    private static readonly JsonSerializerOptions Options = new()
    {
        Converters = { new DayConverter(), new TimeConverter(), new JsonStringEnumConverter() },
    };

    public static string Write(Programme programme) => JsonSerializer.Serialize(programme, Options);

    public static Programme Read(string json) =>
        JsonSerializer.Deserialize<Programme>(json, Options) ?? throw new InvalidDataException("The store holds an empty programme.");

    private sealed class DayConverter : JsonConverter<Day>
    {
        public override Day Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(reader.GetInt32());

        public override void Write(Utf8JsonWriter writer, Day value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Number);
    }

    private sealed class TimeConverter : JsonConverter<LocalTime>
    {
        public override LocalTime Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            LocalTime.FromNanosecondsSinceMidnight(reader.GetInt64());

        public override void Write(Utf8JsonWriter writer, LocalTime value, JsonSerializerOptions options) =>
            writer.WriteNumberValue(value.NanosecondOfDay);
    }
}
