using System.Globalization;

namespace ReproLink.Api.Limits;

/// <summary>How much one caller may ask of the service. Settings of the section <c>Limits</c>.</summary>
internal sealed record ServiceLimits
{
    /// <summary>Largest body, in bytes: <c>Limits:BodyBytes</c>.</summary>
    public int BodyBytes { get; init; } = 10 * 1024 * 1024;

    /// <summary>
    /// Requests a minute with one key, or from one address without a key; as many may come at once. <c>Limits:RequestsPerMinute</c>;
    /// 0 = no limit. The usual value is some hundred times what a herd's programs and people together send; it stops a loop gone wild.
    /// </summary>
    public int RequestsPerMinute { get; init; } = 12_000;

    /// <summary>Wrong keys a minute from one address before they are turned away unread: <c>Limits:WrongKeysPerMinute</c>; 0 = no limit.</summary>
    public int WrongKeysPerMinute { get; init; } = 30;

    public static ServiceLimits Of(IConfiguration configuration)
    {
        var usual = new ServiceLimits();
        return new ServiceLimits
        {
            BodyBytes = Number(configuration, nameof(BodyBytes), 1_000, 1_000_000_000, usual.BodyBytes),
            RequestsPerMinute = Number(configuration, nameof(RequestsPerMinute), 0, 1_000_000_000, usual.RequestsPerMinute),
            WrongKeysPerMinute = Number(configuration, nameof(WrongKeysPerMinute), 0, 1_000_000, usual.WrongKeysPerMinute),
        };
    }

    private static int Number(IConfiguration configuration, string name, int min, int max, int usual)
    {
        if (configuration[$"Limits:{name}"] is not { Length: > 0 } text)
        {
            return usual;
        }

        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= min && number <= max
            ? number
            : throw new BadSettingException($"--Limits:{name} {text}: a whole number from {min} to {max}.");
    }
}

/// <summary>A setting that cannot be used; the message says which and what is allowed.</summary>
internal sealed class BadSettingException(string message) : InvalidOperationException(message);
