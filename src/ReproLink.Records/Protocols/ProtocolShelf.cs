using Dapper;
using NodaTime;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Records;

/// <summary>A veterinarian's word for a protocol that was recalled but not read again.</summary>
/// <param name="Protocol">Its id.</param>
/// <param name="By">Name of the key.</param>
/// <param name="At">When.</param>
public sealed record ProtocolConfirmation(string Protocol, string By, Instant At);

/// <summary>Protocols a herd added itself, and recalled ones its veterinarian confirmed.</summary>
public sealed class ProtocolShelf
{
    private readonly Writer _writer;
    private readonly Readers _readers;

    internal ProtocolShelf(Writer writer, Readers readers) => (_writer, _readers) = (writer, readers);

    /// <summary>Adds a protocol, or a new form of one the herd added before; the same again is no new form.</summary>
    /// <param name="herd">The herd.</param>
    /// <param name="protocol">The protocol, already read and checked.</param>
    /// <param name="definition">Its definition as sent.</param>
    /// <param name="by">Who adds it.</param>
    /// <param name="now">When.</param>
    public Task Add(Herd herd, Protocol protocol, string definition, string by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(protocol);
        return _writer.Write(unit =>
        {
            var forms = unit.Connection.Sqlite.Query<ProtocolRow>(ProtocolRow.Select, new { herd = herd.Id, knownAt = long.MaxValue });
            if (forms.LastOrDefault(row => row.Protocol == protocol.Id)?.Definition == definition)
            {
                return 0;
            }

            var recorded = unit.Record(now);
            var sequence = unit.Change(herd.Id, recorded, ChangeKind.Protocol, animal: null, 0);
            return Insert(unit.Connection, herd.Id, sequence, new KeptProtocol(sequence, protocol.Id, definition, by, recorded));
        });
    }

    /// <summary>Records that a veterinarian answers for a protocol; once said, it need not be said again.</summary>
    public Task Confirm(Herd herd, string protocol, string by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit =>
        {
            var given = unit.Connection.Sqlite.Query<ConfirmationRow>(ConfirmationRow.Select, new { herd = herd.Id });
            if (given.Any(row => row.Protocol == protocol && row.ConfirmedBy == by))
            {
                return 0;
            }

            var recorded = unit.Record(now);
            var sequence = unit.Change(herd.Id, recorded, ChangeKind.Protocol, animal: null, 0);
            return Insert(unit.Connection, herd.Id, sequence, new KeptConfirmation(sequence, protocol, by, recorded));
        });
    }

    internal static int Insert(Connection connection, long herd, long sequence, KeptProtocol kept) => connection.Sqlite.Execute(
        """
        INSERT INTO protocol (herd, protocol, sequence, recorded, definition, added_by)
        VALUES (@herd, @Id, @sequence, @at, @Definition, @By)
        """,
        new { herd, kept.Id, sequence, at = Ticks.Of(kept.At), kept.Definition, kept.By });

    internal static int Insert(Connection connection, long herd, long sequence, KeptConfirmation kept) => connection.Sqlite.Execute(
        """
        INSERT INTO protocol_confirmation (herd, protocol, sequence, recorded, confirmed_by)
        VALUES (@herd, @Protocol, @sequence, @at, @By)
        """,
        new { herd, kept.Protocol, sequence, at = Ticks.Of(kept.At), kept.By });

    /// <summary>The herd's own protocols, by id.</summary>
    public IReadOnlyList<Protocol> Own(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => Own(connection, herd.Id, knownAt: null));
    }

    /// <summary>The confirmations given in a herd, oldest first.</summary>
    public IReadOnlyList<ProtocolConfirmation> Confirmations(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => connection.Sqlite.Query<ConfirmationRow>(ConfirmationRow.Select, new { herd = herd.Id })
            .Select(row => new ProtocolConfirmation(row.Protocol, row.ConfirmedBy, Ticks.From(row.Recorded)))
            .ToArray());
    }

    internal static IReadOnlyList<Protocol> Own(Connection connection, long herd, long? knownAt) =>
        [.. connection.Sqlite.Query<ProtocolRow>(ProtocolRow.Select, new { herd, knownAt = knownAt ?? long.MaxValue })
            .GroupBy(row => row.Protocol, StringComparer.Ordinal)
            .Select(forms => ProtocolReader.Read($"{forms.Key}.json", forms.Last().Definition))];
}

/// <summary>A row of <c>protocol</c>.</summary>
internal sealed class ProtocolRow
{
    public const string Select =
        "SELECT protocol, definition FROM protocol WHERE herd = @herd AND recorded <= @knownAt ORDER BY protocol, sequence";

    public string Protocol { get; init; } = "";

    public string Definition { get; init; } = "";
}

/// <summary>A row of <c>protocol_confirmation</c>.</summary>
internal sealed class ConfirmationRow
{
    public const string Select =
        """
        SELECT protocol, recorded, confirmed_by AS ConfirmedBy FROM protocol_confirmation WHERE herd = @herd ORDER BY sequence
        """;

    public string Protocol { get; init; } = "";

    public long Recorded { get; init; }

    public string ConfirmedBy { get; init; } = "";
}
