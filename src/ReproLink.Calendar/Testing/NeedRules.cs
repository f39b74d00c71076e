using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>What an animal's blood is wanted for on a day, before samples on their way are looked at (rule W1).</summary>
internal static class NeedRules
{
    /// <summary>A need, or why there is none.</summary>
    /// <param name="Need">The need; absent = none.</param>
    /// <param name="None">Why there is none.</param>
    internal readonly record struct Asked(Need? Need, AnswerReason None)
    {
        public ConfirmationWindow? Confirmation { get; init; }

        public Day? Until { get; init; }
    }

    public static Asked Find(AnimalState state, Programme programme, Day on) => state.Underneath switch
    {
        AnimalStatus.NotServed => new Asked(null, AnswerReason.NotServed),
        AnimalStatus.Open => new Asked(null, AnswerReason.Open),
        AnimalStatus.AwaitingTest => new Asked(Need.FirstTest, default),
        AnimalStatus.Recheck => new Asked(Need.Resample, default),
        AnimalStatus.Conflict => new Asked(Need.ResolveConflict, default),
        AnimalStatus.PregnantCaution => new Asked(Need.CautionRetest, default),
        _ => Confirmation(state, programme, on),
    };

    // Pregnant: the last window whose first day has come is the one that counts; a valid positive from its first day on
    // satisfies it; missed, it stays overdue until the next opens. Confirmations by examination ask no blood.
    private static Asked Confirmation(AnimalState state, Programme programme, Day on)
    {
        var none = new Asked(null, AnswerReason.ConfirmedPregnant);
        if (state.Pregnancy?.To is not { } dated)
        {
            return none;
        }

        ConfirmationWindow? current = null;
        Day? next = null;
        foreach (var window in programme.Confirmations)
        {
            if (dated + window.From <= on)
            {
                current = current is null || window.From >= current.From ? window : current;
            }
            else
            {
                next = Day.Min(next ?? dated + window.From, dated + window.From);
            }
        }

        return current is null || current.Method.IsExamination() || state.Pregnancy.LastPositive >= dated + current.From
            ? none with { Until = next }
            : new Asked(Need.Confirmation, default) { Confirmation = current };
    }
}
