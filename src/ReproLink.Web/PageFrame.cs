using ReproLink.Calendar.Dates;

namespace ReproLink.Web;

/// <summary>What every page of a herd shows around its own matter.</summary>
/// <param name="Herd">The herd's name.</param>
/// <param name="Path">Where its pages begin, without a slash at the end.</param>
/// <param name="Today">The herd's today.</param>
/// <param name="Who">Name of the key that is signed in.</param>
public sealed record PageFrame(string Herd, string Path, Day Today, string Who)
{
    /// <summary>Whether she may record work and facts.</summary>
    public bool MayRecord { get; init; }

    /// <summary>Whether she may declare a fact right, and decide about held results.</summary>
    public bool MayConfirm { get; init; }

    /// <summary>Whether she may take results in.</summary>
    public bool MayPostResults { get; init; }

    /// <summary>Whether she may save a programme, and say how a sender's files are read.</summary>
    public bool MayManage { get; init; }

    /// <summary>Whether she may approve a programme.</summary>
    public bool MayApprove { get; init; }

    /// <summary>The herd's time zone, for what a script records.</summary>
    public string TimeZone { get; init; } = "UTC";

    /// <summary>Whether the defaults govern because no programme was saved.</summary>
    public bool Defaults { get; init; }

    /// <summary>A sentence about what was just done; absent = nothing.</summary>
    public string? Notice { get; init; }

    /// <summary>The address of an animal's page.</summary>
    public string Animal(string animal) => $"{Path}/animals/{Uri.EscapeDataString(animal)}";
}
