namespace ReproLink.Api.Archives;

/// <summary>The files of an exported herd. Names and columns are the form; whoever changes one raises <see cref="Form"/>.</summary>
internal static class ArchiveFiles
{
    /// <summary>The form that is written, and the only one that is read.</summary>
    public const int Form = 1;

    public const string ReadMe = "README.txt";
    public const string Herd = "herd.json";
    public const string Facts = "facts.csv";
    public const string Results = "results.csv";
    public const string Held = "held-results.csv";
    public const string Programmes = "programmes.json";
    public const string Protocols = "protocols.json";
    public const string Rounds = "rounds.csv";
    public const string Tubes = "tubes.csv";
    public const string TubeEvents = "tube-events.csv";
    public const string Dispatches = "dispatches.csv";
    public const string Batches = "received-batches.csv";
    public const string Lines = "received-lines.csv";
    public const string Mappings = "mappings.json";

    /// <summary>Lists the others with their checksums; written last.</summary>
    public const string Contents = "contents.json";

    /// <summary>All but the list, in their order.</summary>
    public static readonly string[] Listed =
        [ReadMe, Herd, Facts, Results, Held, Programmes, Protocols, Rounds, Tubes, TubeEvents, Dispatches, Batches, Lines, Mappings];

    /// <summary>Largest zip that is taken in.</summary>
    public const int MostZipBytes = 64 * 1024 * 1024;

    /// <summary>Most its files may come to when they are unpacked.</summary>
    public const long MostBytes = 256L * 1024 * 1024;

    /// <summary>Most one JSON file may come to.</summary>
    public const long MostJsonBytes = 32L * 1024 * 1024;
}
