using CsCheck;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Tests.Generators;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>One random animal, the rules that govern her and the moment she is looked at.</summary>
public sealed record PlanCase(HerdRules Rules, RandomAnimal Animal, IReadOnlyList<HeldNotice> Held, Day AsOf, Instant KnownAt)
{
    /// <summary>Her history as known at the moment.</summary>
    public AnimalHistory History => AnimalHistory.Of(
        Animal.Animal,
        Animal.Facts.Where(f => f.Recorded <= KnownAt),
        [.. Held.Where(h => h.Received <= KnownAt)]);

    public override string ToString() =>
        $"asOf {AsOf} knownAt {KnownAt} zone {Rules.Zone.Id} held {string.Join(',', Held.Select(h => h.Received))}\n{Animal}\n{string.Join("\n", Rules.Versions)}";
}

/// <summary>
/// Random animals on random approved programmes of every kind: first service, heifers, inserts, at-result, two
/// prostaglandins a day apart. Steps of their plans are recorded, reported as not done, or done with another agent.
/// </summary>
public static class PlanHerds
{
    // Any protocol with a gated step, so that the law holds for those a veterinarian has yet to confirm as well.
    private static readonly string[] Protocols = [.. ProtocolLibrary.All.Values.Where(p => p.FirstGated is not null).Select(p => p.Id)];

    private static Gen<T> Any<T>(params T[] these) => Gen.Int[0, these.Length - 1].Select(i => these[i]);

    private static readonly Gen<string> Usual = Any(
        "ovsynch-56", "ovsynch-56-2pgf", "cosynch-5d-dairy-cow", "p4-ovsynch-56", "resynch-24-insert14-21", "short-resynch-nocl-insert", "resynch-32-at-diagnosis");

    private static readonly Gen<string> Protocol = Gen.Frequency((2, Usual), (1, Any(Protocols)));

    private static readonly Gen<HerdRules> Rules =
        from rules in RandomProgrammes.Rules
        from cows in Protocol
        from heifers in Gen.Frequency((2, Gen.Const("cosynch-5d-insert-dairy-heifer")), (1, Any(Protocols)))
        from first in Gen.Frequency((1, Gen.Const("double-ovsynch-56")), (1, Gen.Const("p4-ovsynch-56")), (1, Any(Protocols)))
        from hasFirst in Gen.Int[0, 2]
        from recording in Any(Recording.Assumed, Recording.Assumed, Recording.Recorded)
        from expires in Gen.Frequency((4, Gen.Const((int?)null)), (1, Gen.Int[0, RandomAnimals.Span].Select(n => (int?)n)))
        select new HerdRules(rules.Zone, (rules.HasSavedProgramme ? rules.Versions : [new ProgrammeVersion(1, new Programme { InForceFrom = RandomAnimals.Start }, Saved, [])])
            .Select(v => v with
            {
                Recorded = Saved,
                Approvals = [new Approval("vet", Saved, expires is { } days ? RandomAnimals.Start + days : null)],
                Programme = v.Programme with
                {
                    Recording = recording,
                    FirstService = hasFirst == 0 ? null : new FirstServiceChoice(60, first, v.Programme.Week.StartDays),
                    Resynchronisation = v.Programme.Resynchronisation with { Protocol = cows, ProtocolHeifer = heifers },
                },
            }));

    private static Instant Saved => RandomAnimals.Recorded(RandomAnimals.Start - 400);

    private static readonly Gen<IReadOnlyList<HeldNotice>> Held =
        from any in Gen.Int[0, 9]
        from day in Gen.Int[0, RandomAnimals.Span]
        select (IReadOnlyList<HeldNotice>)(any == 0 ? [new HeldNotice("h_1", RandomAnimals.Recorded(RandomAnimals.Start + day), "unknown-tube")] : []);

    // Doses, inserts and inseminations on the days a plan may ask for them.
    private static readonly Gen<(int After, int What, int Hour, int Pick)[]> Acts = Gen.Select(Gen.Int[-2, 60], Gen.Int[0, 19], Gen.Int[0, 23], Gen.Int[0, 99]).Array[0, 6];

    /// <summary>One animal, looked at near something that happened to her.</summary>
    public static readonly Gen<PlanCase> One =
        from rules in Rules
        from animal in RandomAnimals.One
        from acts in Acts
        from held in Held
        from pick in Gen.Int[0, 99]
        from after in Gen.Frequency((3, Gen.Int[0, 4]), (4, Gen.Int[5, 60]), (1, Gen.Int[61, 200]))
        from hour in Gen.Int[0, 23]
        from known in Gen.Frequency((6, Gen.Const(0)), (2, Gen.Const(400)), (1, Gen.Int[-20, 5]))
        let facts = With(animal.Facts, acts)
        let asOf = Near(facts, pick) + after
        select new PlanCase(rules, animal with { Facts = facts }, held, asOf, ((asOf + known).Date + new LocalTime(hour, 30)).InUtc().ToInstant());

    private static Fact[] With(IReadOnlyList<Fact> facts, (int After, int What, int Hour, int Pick)[] acts)
    {
        var all = facts.ToList();
        foreach (var (after, what, hour, pick) in acts)
        {
            var day = Near(facts, pick) + after;
            var time = hour < 18 ? new LocalTime(hour, 0) : (LocalTime?)null;
            Fact act = what switch
            {
                < 5 => new Treatment(day, Agent.Gnrh, what == 0),
                < 9 => new Treatment(day, Agent.Pgf, what == 5),
                < 12 => new Treatment(day, Agent.InsertIn, what == 9),
                < 15 => new Treatment(day, Agent.InsertOut, what == 12),
                < 17 => new Insemination(day),
                _ => new TestResult(day, TestMethod.Blood, Outcome.Open),
            };
            var number = all.Count + 1;
            all.Add(act with { Time = act is Insemination or Treatment ? time : null, Source = "plan", SourceId = $"{number:00}", Id = new FactId(1000 + number), Recorded = RandomAnimals.Recorded(day) });
        }

        return [.. all];
    }

    private static Day Near(IReadOnlyList<Fact> facts, int pick)
    {
        var dated = facts.Where(f => f.Day >= RandomAnimals.Start).ToList();
        return dated.Count == 0 ? RandomAnimals.Start : dated[pick % dated.Count].Day;
    }
}
