using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>Finds the facts of one source and sourceId, whose ids say which identity and revision they are.</summary>
internal static class FactRevisions
{
    private const string ById =
        """
        SELECT s.name, f.source_id, f.revision, f.kind FROM fact f JOIN source s ON s.herd = f.herd AND s.source = f.source
        WHERE f.herd = ?1 AND f.fact = ?2
        """;

    /// <summary>The latest, withdrawn or not; null = nothing was ever sent under that identity.</summary>
    public static FactId? Latest(Connection connection, long herd, string source, string sourceId)
    {
        if (At(connection, herd, source, sourceId, 0) is not { } first)
        {
            return null;
        }

        // Revisions have no gaps: double until one is missing, then halve.
        var (latest, present, missing) = (first.Id, 0L, 1L);
        while (At(connection, herd, source, sourceId, missing) is { } known)
        {
            (latest, present, missing) = (known.Id, missing, missing * 2);
        }

        while (missing - present > 1)
        {
            var middle = present + ((missing - present) / 2);
            (latest, present, missing) = At(connection, herd, source, sourceId, middle) is { } known
                ? (known.Id, middle, missing)
                : (latest, present, middle);
        }

        return latest;
    }

    /// <summary>Whether a later revision is of one of some kinds.</summary>
    public static bool AnyLater(Connection connection, long herd, string source, string sourceId, long revision, KindSet kinds)
    {
        while (At(connection, herd, source, sourceId, ++revision) is { } later)
        {
            if (kinds.Contains(later.Kind))
            {
                return true;
            }
        }

        return false;
    }

    private static (FactId Id, FactKind Kind)? At(Connection connection, long herd, string source, string sourceId, long revision)
    {
        for (byte salt = 0; ; salt++)
        {
            var id = FactIdentity.Of(source, sourceId, revision, salt);
            var row = connection.Prepared(ById).Bind(1, herd).Bind(2, id.Value);
            if (!row.Step())
            {
                return null;
            }

            var (same, kind) = (row.Long(2) == revision && row.Text(0) == source && row.Text(1) == sourceId, (FactKind)row.Int(3));
            row.Reset();
            if (same)
            {
                return (id, kind);
            }
        }
    }
}
