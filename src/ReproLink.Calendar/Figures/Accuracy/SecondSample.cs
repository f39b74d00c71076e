using ReproLink.Calendar.Figures.Estimates;

namespace ReproLink.Calendar.Figures.Accuracy;

/// <summary>
/// A second sample of every animal called open, before she is treated: treated only when both say open. Counts per 1,000 first
/// tests that said pregnant or open.
/// </summary>
/// <remarks>
/// That the second sample errs independently of the first is an assumption: an animal whose protein is low gives a low value
/// twice. The truth lies between <see cref="WrongOpenIfIndependent"/> and <see cref="WrongOpenIfRepeated"/>.
/// </remarks>
/// <param name="WrongOpenWithOne">Wrongly treated on one sample.</param>
/// <param name="WrongOpenIfIndependent">Wrongly treated on two, if their errors are independent of each other.</param>
/// <param name="WrongOpenIfRepeated">Wrongly treated on two, if the second repeats every error of the first: nothing is gained.</param>
/// <param name="Tubes">Second samples drawn: one of every animal called open.</param>
/// <param name="OpenWaiting">Truly open animals that wait for the second answer.</param>
/// <param name="OpenHeldBack">Truly open animals the second sample wrongly calls pregnant: they wait until an examination or their confirmation.</param>
/// <param name="TubesForOne">Second samples for one pregnancy kept, if errors are independent; null = no pregnancy is kept.</param>
/// <param name="WaitingForOne">Truly open animals that wait, for one pregnancy kept, if errors are independent.</param>
public sealed record SecondSample(
    Estimate WrongOpenWithOne, Estimate WrongOpenIfIndependent, Estimate WrongOpenIfRepeated, Estimate Tubes, Estimate OpenWaiting,
    Estimate OpenHeldBack, Estimate? TubesForOne, Estimate? WaitingForOne)
{
    private const double Thousand = 1000;

    /// <summary>Pregnancies a second sample keeps of 1,000 first tests, if errors are independent.</summary>
    public double Kept => WrongOpenWithOne.Value - WrongOpenIfIndependent.Value;

    /// <summary>
    /// From what price of a lost pregnancy a second sample pays, if errors are independent: its tubes and the waiting of truly open
    /// animals, divided by the pregnancies it keeps. Null = it keeps none.
    /// </summary>
    /// <param name="test">Price of a test.</param>
    /// <param name="dayOpen">Price of a day open.</param>
    /// <param name="days">Days by which the next service comes later.</param>
    public double? PaysFrom(double test, double dayOpen, double days) =>
        TubesForOne is { } tubes && WaitingForOne is { } waiting ? (tubes.Value * test) + (waiting.Value * dayOpen * days) : null;

    internal static double[] Results(double p, double se, double sp)
    {
        var (wrong, right) = ((1 - se) * p, sp * (1 - p));
        var kept = wrong * se;
        return [Thousand * wrong * (1 - se), Thousand * right, Thousand * right * (1 - sp), (wrong + right) / kept, right / kept];
    }

    internal static SecondSample? Of(Estimate?[] results, Estimate? withOne, Estimate? calledOpen) =>
        withOne is not null && calledOpen is not null && results is [{ } two, { } waiting, { } held, var tubes, var waitingForOne]
            ? new SecondSample(
                Positive(withOne), Positive(two), Positive(withOne), Positive(calledOpen), Positive(waiting), Positive(held),
                tubes is null ? null : Positive(tubes), waitingForOne is null ? null : Positive(waitingForOne))
            : null;

    private static Estimate Positive(Estimate estimate) => estimate.Within(0, double.PositiveInfinity)!;
}
