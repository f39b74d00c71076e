namespace ReproLink.Records;

/// <summary>A webhook taken by a process that sends.</summary>
internal sealed class LeaseRow
{
    public const string Select =
        """
        SELECT w.url, w.state, w.told, w.secret, w.old_secret, w.created_by,
          EXISTS (SELECT 1 FROM api_key k WHERE k.key = w.api_key AND k.revoked IS NOT NULL) AS key_revoked
        FROM webhook w WHERE w.herd = @herd AND w.webhook = @webhook
        """;

    public string Url { get; init; } = "";

    public long State { get; init; }

    public long Told { get; init; }

    public byte[] Secret { get; init; } = [];

    public byte[]? OldSecret { get; init; }

    public string CreatedBy { get; init; } = "";

    public long KeyRevoked { get; init; }
}

/// <summary>A message as it is sent.</summary>
internal sealed class MessageRow
{
    public const string Columns = "delivery, id, body, tries, test";

    public const string Select = $"SELECT {Columns} FROM webhook_delivery";

    public long Delivery { get; init; }

    public string Id { get; init; } = "";

    public string Body { get; init; } = "";

    public long Tries { get; init; }

    public long Test { get; init; }
}
