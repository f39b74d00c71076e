using ReproLink.Calendar.Dates;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Web.Programmes;

/// <summary>What the form of a programme shows.</summary>
public sealed record ProgrammeModel
{
    /// <summary>What stands in the fields.</summary>
    public required SettingValues Values { get; init; }

    /// <summary>First day in force, as written in its field.</summary>
    public required string InForceFrom { get; init; }

    /// <summary>What is wrong, a sentence a field; empty = nothing.</summary>
    public required IReadOnlyDictionary<string, string> Problems { get; init; }

    /// <summary>The programme the fields say; absent while something is wrong with them.</summary>
    public Programme? Read { get; init; }

    /// <summary>What the check found of it.</summary>
    public CheckedProgramme? Check { get; init; }

    /// <summary>The latest version when the form was first shown: who saves must have seen it.</summary>
    public required int Latest { get; init; }

    /// <summary>The setting a suggestion has just filled in; absent = none.</summary>
    public string? Filled { get; init; }

    /// <summary>Protocols to choose from, and those only listed.</summary>
    public required IReadOnlyList<ProtocolOption> Protocols { get; init; }

    /// <summary>The published name of a protocol's id.</summary>
    public string NameOf(string id) => Protocols.FirstOrDefault(p => p.Protocol.Id == id)?.Protocol.Name ?? id;
}

/// <summary>A protocol in the list.</summary>
/// <param name="Protocol">The protocol.</param>
/// <param name="MayBeChosen">False: it was recalled, and no veterinarian has confirmed it yet.</param>
/// <param name="Own">Whether the herd added it itself.</param>
/// <param name="ConfirmedBy">The veterinarian's key that answers for it; absent = none, or none is needed.</param>
public sealed record ProtocolOption(Protocol Protocol, bool MayBeChosen, bool Own, string? ConfirmedBy)
{
    /// <summary>Whether it is for heifers.</summary>
    public bool Heifers => Protocol.Class is AnimalClass.DairyHeifer or AnimalClass.BeefHeifer or AnimalClass.Any;

    /// <summary>Whether it is for cows.</summary>
    public bool Cows => Protocol.Class is AnimalClass.DairyCow or AnimalClass.BeefCow or AnimalClass.Any;
}

/// <summary>A saved version in the list.</summary>
/// <param name="Version">The version.</param>
/// <param name="Standing">Where it stands today.</param>
/// <param name="SavedBy">The key that saved it.</param>
/// <param name="SavedOn">The day it was saved.</param>
/// <param name="Differences">What it says otherwise than the version saved before it.</param>
public sealed record VersionLine(ProgrammeVersion Version, Standing Standing, string SavedBy, Day SavedOn, IReadOnlyList<string> Differences);
