using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>The protocol an animal is put on after a service, and when it starts (rule S1).</summary>
/// <param name="Protocol">The protocol of her class.</param>
/// <param name="BeforeResultDay">Days after service of the earliest before-result start; absent = it starts at the result.</param>
internal sealed record ChosenProtocol(Protocol Protocol, int? BeforeResultDay)
{
    /// <summary>What governs her (S10: the version of her latest service's day); null = no plan for her class.</summary>
    public static ChosenProtocol? Of(AnimalState state, HerdRules rules, Day asked)
    {
        var choice = state.GoverningProgramme(rules, asked).Resynchronisation;
        if (rules.FindProtocol(state.IsHeifer ? choice.ProtocolHeifer : choice.Protocol) is not { FirstGated: not null } protocol)
        {
            return null;
        }

        // A published recipe comes with its own start.
        var rule = protocol.Start?.Rule ?? choice.Start;
        var day = protocol.Start?.Day ?? choice.StartDay;
        return new ChosenProtocol(protocol, rule == StartRule.BeforeResult && protocol.MayStartBeforeResult ? day : null);
    }
}
