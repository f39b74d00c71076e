namespace ReproLink.Calendar.Protocols;

/// <summary>A protocol definition that cannot be used: which file, which protocol, and why.</summary>
public sealed class ProtocolDefinitionException : Exception
{
    /// <summary>Creates the exception.</summary>
    public ProtocolDefinitionException()
        : this("", null, "")
    {
    }

    /// <summary>Creates the exception from a reason alone.</summary>
    public ProtocolDefinitionException(string message)
        : this("", null, message)
    {
    }

    /// <summary>Creates the exception from a reason and its cause.</summary>
    public ProtocolDefinitionException(string message, Exception innerException)
        : this("", null, message, innerException)
    {
    }

    /// <summary>Creates the exception.</summary>
    public ProtocolDefinitionException(string file, string? protocol, string reason, Exception? cause = null)
        : base($"{file}: protocol '{protocol ?? "(no id)"}': {reason}", cause)
    {
        File = file;
        Protocol = protocol;
        Reason = reason;
    }

    /// <summary>Name of the file.</summary>
    public string File { get; }

    /// <summary>Id of the protocol; null when the definition has none that can be read.</summary>
    public string? Protocol { get; }

    /// <summary>What is wrong; several problems are parted by semicolons.</summary>
    public string Reason { get; }
}
