using ReproLink.Api.Reading;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;

namespace ReproLink.Api.Explanations;

/// <summary>What a step is and how it stands, as written.</summary>
internal static class StepWords
{
    public static readonly Vocabulary<StepKind> Kinds = new(
        ("gnrh", StepKind.Gnrh), ("pgf", StepKind.Pgf), ("insert-in", StepKind.InsertIn), ("insert-out", StepKind.InsertOut),
        ("inseminate", StepKind.Inseminate), ("watch-oestrus", StepKind.WatchOestrus));

    public static readonly Vocabulary<StepState> States = new(
        ("firm", StepState.Firm), ("conditional", StepState.Conditional), ("held", StepState.Held), ("awaiting-approval", StepState.AwaitingApproval),
        ("done", StepState.Done), ("missed", StepState.Missed), ("cancelled", StepState.Cancelled));
}
