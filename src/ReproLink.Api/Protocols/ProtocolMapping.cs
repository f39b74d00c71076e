using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Records;

namespace ReproLink.Api.Protocols;

internal static class ProtocolMapping
{
    public static ProtocolAnswer Answer(Protocol protocol, bool own, ProtocolConfirmation? confirmed) => new()
    {
        Id = protocol.Id,
        Name = protocol.Name,
        AnimalClass = ProtocolWords.Of(protocol.Class),
        Use = ProtocolWords.Of(protocol.Use),
        Own = own ? true : null,
        Selectable = own || protocol.IsSelectable || confirmed is not null,
        Confirmed = confirmed is null ? null : new ProtocolConfirmed { By = confirmed.By, At = confirmed.At },
        MayStartBeforeResult = protocol.MayStartBeforeResult,
        Start = protocol.Start is { } start
            ? new ProtocolStartAnswer { Rule = start.Rule == StartRule.BeforeResult ? "before-result" : "at-result", Day = start.Day }
            : null,
        StartSession = protocol.StartSession == Session.Afternoon ? "afternoon" : "morning",
        Steps = [.. protocol.Steps.Select(Step)],
        Source = protocol.Source,
        Doi = protocol.Doi,
        Evidence = ProtocolWords.Of(protocol.Evidence),
        EvidenceDetail = protocol.EvidenceDetail,
        Notes = protocol.Notes,
    };

    private static ProtocolStepAnswer Step(ProtocolStep step) => new()
    {
        Id = step.Id,
        Kind = ProtocolWords.Of(step.Kind),
        Anchor = step.Anchor,
        Days = step.Days,
        Hours = step.Hours,
        Gated = step.Gated,
        EarlyHours = step.EarlyHours,
        LateHours = step.LateHours,
        IfLate = step.IfLate switch
        {
            IfLate.Skip => "skip",
            IfLate.Alternative => "alternative",
            _ => "lapse",
        },
        Optional = step.Optional ? true : null,
        NeedsCorpusLuteum = step.NeedsCorpusLuteum ? true : null,
    };
}
