using CsCheck;
using Xunit.Sdk;

namespace ReproLink.Calendar.Tests.Laws;

/// <summary>
/// Tries a law on random cases. The ordinary suite tries the same ones each run, so that a failure is the fault of a change and not of luck;
/// <c>REPROLINK_SEED=new</c> tries new ones, <c>REPROLINK_LONG=1</c> a hundred times as many new ones, and
/// <c>REPROLINK_SEED=…</c> begins with the one that a failure named, and makes it small.
/// </summary>
internal static class Law
{
    private const int LongRun = 100;

    private static readonly string? Seed = Environment.GetEnvironmentVariable("REPROLINK_SEED");
    private static readonly bool Long = Environment.GetEnvironmentVariable("REPROLINK_LONG") == "1";

    /// <summary>How many cases stand for an ordinary number of them.</summary>
    public static int Cases(int ordinary) => Long ? checked(ordinary * LongRun) : ordinary;

    /// <param name="generator">Makes the cases.</param>
    /// <param name="law">Throws when it does not hold.</param>
    /// <param name="cases">Cases in the ordinary suite.</param>
    public static void Holds<T>(this Gen<T> generator, Action<T> law, int cases)
    {
        if (Long || Seed is not null)
        {
            generator.Sample(law, iter: Cases(cases), seed: Seed is "new" ? null : Seed, threads: Environment.ProcessorCount);
            return;
        }

        Parallel.For(0, cases, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, number =>
        {
            var random = new PCG((uint)number, (ulong)number);
            var seed = random.ToString(random.State);
            var one = generator.Generate(random, null, out _);
            try
            {
                law(one);
            }
            catch (Exception error)
            {
                throw new XunitException($"Case {number} broke the law; REPROLINK_SEED={seed} tries it again and makes it small. {error.Message}", error);
            }
        });
    }

    /// <inheritdoc cref="Holds{T}(Gen{T}, Action{T}, int)"/>
    public static void Holds<TOne, TOther>(this Gen<(TOne One, TOther Other)> generator, Action<TOne, TOther> law, int cases) =>
        generator.Holds(pair => law(pair.One, pair.Other), cases);
}
