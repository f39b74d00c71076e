using System.Collections;
using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records.Tests;

/// <summary>
/// Makes and compares values by their properties, so that a property added to a fact or a programme later, and forgotten
/// by the store, fails a test.
/// </summary>
public static class Anything
{
    private static readonly string[] Words = ["", "B77", "Holstein", "zero\0inside", "Öhrmärke 42", "line\nbreak", "\"quoted\" \\ <b>", "0042", "🐄"];

    public static IReadOnlyList<Type> FactTypes { get; } =
        [.. typeof(Fact).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(Fact)) && !t.IsAbstract).OrderBy(t => t.Name, StringComparer.Ordinal)];

    public static Fact Fact(Type type, Random random, string source, string sourceId) =>
        (Fact)Make(type, random) with { Source = source, SourceId = sourceId, Id = default, Recorded = default };

    public static object Make(Type type, Random random)
    {
        if (Nullable.GetUnderlyingType(type) is { } underlying)
        {
            return random.Next(3) == 0 ? null! : Make(underlying, random);
        }

        return type switch
        {
            _ when type == typeof(bool) => random.Next(2) == 0,
            _ when type == typeof(int) => random.Next(0, 1000),
            _ when type == typeof(double) => random.Next(2) == 0 ? random.NextDouble() : random.Next(1000),
            _ when type == typeof(string) => Words[random.Next(Words.Length)],
            _ when type == typeof(Day) => new Day(random.Next(-700_000, 2_900_000)),
            _ when type == typeof(LocalTime) => new LocalTime(random.Next(24), random.Next(60), random.Next(60), random.Next(1000)),
            _ when type == typeof(Instant) => Instant.FromUnixTimeTicks(random.NextInt64(-100_000_000_000_000_000, 100_000_000_000_000_000)),
            _ when type == typeof(FactId) => default(FactId),
            _ when type.IsEnum => EnumValue(type, random),
            _ when ItemType(type) is { } item => Many(type, item, random),
            _ => Record(type, random),
        };
    }

    /// <summary>The first difference, or null.</summary>
    public static string? Difference(object? a, object? b, string path = "")
    {
        if (a is null || b is null)
        {
            return a is null && b is null ? null : Unlike(a, b, path);
        }

        if (a.GetType() != b.GetType() && a is not IEnumerable)
        {
            return Unlike(a.GetType(), b.GetType(), path);
        }

        if (a is IEnumerable many && a is not string)
        {
            var (left, right) = (many.Cast<object?>().ToArray(), ((IEnumerable)b).Cast<object?>().ToArray());
            return left.Length != right.Length
                ? Unlike(left.Length, right.Length, path + ".Count")
                : left.Select((item, i) => Difference(item, right[i], $"{path}[{i}]")).FirstOrDefault(d => d is not null);
        }

        if (a is string or Day or FactId || a.GetType().IsPrimitive || a.GetType().IsEnum || a.GetType().Namespace!.StartsWith("NodaTime", StringComparison.Ordinal))
        {
            return a.Equals(b) ? null : Unlike(a, b, path);
        }

        return Properties(a.GetType()).Select(p => Difference(p.GetValue(a), p.GetValue(b), path + "." + p.Name)).FirstOrDefault(d => d is not null);
    }

    private static string Unlike(object? a, object? b, string path) => string.Create(CultureInfo.InvariantCulture, $"{path}: {a ?? "null"} / {b ?? "null"}");

    private static IEnumerable<PropertyInfo> Properties(Type type) =>
        type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.GetIndexParameters().Length == 0);

    private static Type? ItemType(Type type) =>
        type.IsGenericType && (type.GetGenericTypeDefinition() == typeof(ImmutableArray<>) || type.GetGenericTypeDefinition() == typeof(IReadOnlyList<>))
            ? type.GetGenericArguments()[0]
            : null;

    private static object Many(Type type, Type item, Random random)
    {
        var array = Array.CreateInstance(item, random.Next(4));
        for (var i = 0; i < array.Length; i++)
        {
            array.SetValue(Make(item, random), i);
        }

        return type.GetGenericTypeDefinition() == typeof(ImmutableArray<>)
            ? typeof(ImmutableArray).GetMethods().Single(m => m.Name == "Create" && m.GetParameters() is [{ ParameterType.IsArray: true }])
                .MakeGenericMethod(item).Invoke(null, [array])!
            : array;
    }

    private static object Record(Type type, Random random)
    {
        var constructor = type.GetConstructors().OrderByDescending(c => c.GetParameters().Length).First();
        var made = constructor.Invoke([.. constructor.GetParameters().Select(p => Make(p.ParameterType, random))]);
        var nullability = new NullabilityInfoContext();
        foreach (var property in Properties(type).Where(p => p.SetMethod is not null))
        {
            var may = nullability.Create(property).WriteState == NullabilityState.Nullable && !property.PropertyType.IsValueType;
            property.SetValue(made, may && random.Next(3) == 0 ? null : Make(property.PropertyType, random));
        }

        return made;
    }

    private static object EnumValue(Type type, Random random)
    {
        // None is a weekday only to a default value.
        var values = Enum.GetValues(type).Cast<object>().Where(v => Convert.ToInt32(v, CultureInfo.InvariantCulture) != 0).ToArray();
        return values[random.Next(values.Length)];
    }
}
