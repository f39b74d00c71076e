using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>A row with its place among the changes of the herd.</summary>
internal abstract class Placed
{
    public long Sequence { get; init; }

    public long Recorded { get; init; }
}

/// <summary>A row of <c>programme</c>.</summary>
internal sealed class KeptProgrammeRow : Placed
{
    public const string Select =
        "SELECT sequence, recorded, version, draft, programme, received, saved_by AS SavedBy FROM programme WHERE herd = @Id ORDER BY sequence";

    public long Version { get; init; }

    public long Draft { get; init; }

    public string Programme { get; init; } = "";

    public string Received { get; init; } = "";

    public string SavedBy { get; init; } = "";
}

/// <summary>A row of <c>approval</c>.</summary>
internal sealed class KeptApprovalRow : Placed
{
    public const string Select =
        "SELECT sequence, recorded, version, approved_by AS ApprovedBy, expires FROM approval WHERE herd = @Id ORDER BY sequence";

    public long Version { get; init; }

    public string ApprovedBy { get; init; } = "";

    public long? Expires { get; init; }
}

/// <summary>A row of <c>refusal</c>.</summary>
internal sealed class KeptRefusalRow : Placed
{
    public const string Select =
        "SELECT sequence, recorded, version, refused_by AS RefusedBy, note FROM refusal WHERE herd = @Id ORDER BY sequence";

    public long Version { get; init; }

    public string RefusedBy { get; init; } = "";

    public string Note { get; init; } = "";
}

/// <summary>A row of <c>protocol</c> or <c>protocol_confirmation</c>.</summary>
internal sealed class KeptProtocolRow : Placed
{
    public const string Confirmations =
        "SELECT sequence, recorded, protocol, '' AS definition, confirmed_by AS AddedBy FROM protocol_confirmation WHERE herd = @Id ORDER BY sequence";

    public const string Select =
        "SELECT sequence, recorded, protocol, definition, added_by AS AddedBy FROM protocol WHERE herd = @Id ORDER BY sequence";

    public string Protocol { get; init; } = "";

    public string Definition { get; init; } = "";

    public string AddedBy { get; init; } = "";
}

/// <summary>A row of <c>held_end</c>.</summary>
internal sealed class KeptHeldEndRow : Placed
{
    public const string Select =
        "SELECT held, sequence, ending, ended_by AS EndedBy, note, recorded, fact FROM held_end WHERE herd = @Id";

    public long Held { get; init; }

    public string Ending { get; init; } = "";

    public string EndedBy { get; init; } = "";

    public string Note { get; init; } = "";

    public long? Fact { get; init; }

    public HeldEnd ToEnd() => new(Ending, EndedBy, Note, Ticks.From(Recorded), Fact is { } id ? new FactId(id) : null);
}

/// <summary>A row of <c>round</c>.</summary>
internal sealed class KeptRoundRow : Placed
{
    public const string Select =
        "SELECT sequence, recorded, round, day, name, specimen, created_by AS CreatedBy FROM round WHERE herd = @Id ORDER BY round";

    public long Round { get; init; }

    public long Day { get; init; }

    public string? Name { get; init; }

    public string Specimen { get; init; } = "";

    public string CreatedBy { get; init; } = "";
}

/// <summary>A row of <c>tube</c>.</summary>
internal sealed class KeptTubeRow : Placed
{
    public const string Select =
        """
        SELECT sequence, recorded, round, number, animal, pen, need, days_post_service AS DaysPostService, redraws, added_by AS AddedBy
        FROM tube WHERE herd = @Id ORDER BY round, number
        """;

    public long Round { get; init; }

    public long Number { get; init; }

    public string Animal { get; init; } = "";

    public string? Pen { get; init; }

    public string? Need { get; init; }

    public long? DaysPostService { get; init; }

    public long? Redraws { get; init; }

    public string AddedBy { get; init; } = "";
}

/// <summary>A row of <c>tube_event</c> with its place.</summary>
internal sealed class KeptTubeEventRow : TubeEventRow
{
    public new const string Select =
        """
        SELECT sequence, round, number, recorded, state, day, time, done_by AS DoneBy, reason, dispatch
        FROM tube_event WHERE herd = @Id ORDER BY sequence, round, number
        """;

    public long Sequence { get; init; }
}

/// <summary>A row of <c>dispatch</c>.</summary>
internal sealed class KeptDispatchRow : Placed
{
    public const string Select =
        "SELECT sequence, round, dispatch, at, sent_by AS SentBy, recorded FROM dispatch WHERE herd = @Id ORDER BY round, dispatch";

    public long Round { get; init; }

    public long Dispatch { get; init; }

    public long At { get; init; }

    public string SentBy { get; init; } = "";
}

/// <summary>A row of <c>received_line</c> alone.</summary>
internal sealed class KeptLineRow
{
    public const string Select =
        """
        SELECT batch, item, line, raw, source, source_id AS SourceId, decision, why, fact, held
        FROM received_line WHERE herd = @Id ORDER BY batch, item
        """;

    public long Batch { get; init; }

    public long Item { get; init; }

    public long? Line { get; init; }

    public string Raw { get; init; } = "";

    public string? Source { get; init; }

    public string? SourceId { get; init; }

    public long Decision { get; init; }

    public string? Why { get; init; }

    public long? Fact { get; init; }

    public long? Held { get; init; }
}
