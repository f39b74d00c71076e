using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Web.Programmes;

/// <summary>How a setting is filled in.</summary>
public enum SettingKind
{
    /// <summary>A whole number.</summary>
    Number = 1,

    /// <summary>A number with a decimal point.</summary>
    Decimal = 2,

    /// <summary>A short text.</summary>
    Text = 3,

    /// <summary>A time of day.</summary>
    Time = 4,

    /// <summary>Any of the weekdays.</summary>
    Weekdays = 5,

    /// <summary>One of a few words.</summary>
    Choice = 6,

    /// <summary>Yes or no.</summary>
    Truth = 7,

    /// <summary>One protocol, or none.</summary>
    Protocol = 8,

    /// <summary>Any number of dates.</summary>
    Dates = 9,

    /// <summary>Confirmations of a pregnancy.</summary>
    Confirmations = 10,
}

/// <summary>Which way a limit of a rule goes that no programme may pass.</summary>
public enum HardLimit
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Not below the least.</summary>
    Floor = 1,

    /// <summary>Not above the most.</summary>
    Cap = 2,
}

/// <summary>One setting of a programme, as a person fills it in.</summary>
/// <param name="Path">Its place in a programme as written, with dots; the name of its field.</param>
/// <param name="Kind">How it is filled in.</param>
/// <param name="Rule">The rule it belongs to: there stand its source and how good that is.</param>
/// <param name="Values">Its value in a programme, as written in the field; several where it takes several; none = absent.</param>
public sealed record Setting(string Path, SettingKind Kind, string Rule, Func<Programme, IReadOnlyList<string>> Values)
{
    /// <summary>The key of its unit; absent = it has none.</summary>
    public string? Unit { get; init; }

    /// <summary>The least number allowed.</summary>
    public int Least { get; init; }

    /// <summary>The greatest number allowed.</summary>
    public int Most { get; init; }

    /// <summary>Whether least or most is a limit of the rule itself.</summary>
    public HardLimit Hard { get; init; }

    /// <summary>The words it may be, as written in a programme.</summary>
    public IReadOnlyList<string> Words { get; init; } = [];

    /// <summary>Id of its field.</summary>
    public string Id => "s-" + Path.Replace('.', '-');

    /// <summary>Key of its name in the table of sentences.</summary>
    public string Key => "set." + Path;

    /// <summary>Its default, as written in the field.</summary>
    public IReadOnlyList<string> Default => Values(SettingBook.Usual);

    /// <summary>The rule's line in the rule book.</summary>
    public Rule? Source => RuleBook.Find(Rule);
}

/// <summary>Settings that people think of together.</summary>
/// <param name="Name">Its name in ids and keys.</param>
/// <param name="Settings">In the order filled in.</param>
public sealed record SettingGroup(string Name, IReadOnlyList<Setting> Settings);
