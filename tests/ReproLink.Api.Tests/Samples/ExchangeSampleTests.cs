namespace ReproLink.Api.Tests.Samples;

/// <summary>The program in docs/ that knows only the exchange standard does what it says with the real demo.</summary>
[Collection(nameof(Samples))]
public sealed class ExchangeSampleTests
{
    [SkippableFact]
    public async Task The_strangers_program_sends_and_reads_what_is_concluded()
    {
        var command = SampleProcess.Script("exchange.py");
        await using var demo = await DemoProcess.Start();
        var lines = await SampleProcess.Run([.. command, demo.Address]);

        Assert.Equal(
            [
                "location: demo larch-hollow",
                "animals animal-1: stored",
                "parturitions calving-1: stored",
                "inseminations service-1: stored",
                "inseminations service-2: refused, /inseminationType 'inseminationType' is missing; allowed: one of NaturalService, RunWithBull, Insemination, Implantation.",
                "status: Inseminated",
                "gestation: none",
                "pregnancy-checks check-1: stored",
                "status: Pregnant",
            ],
            lines[..9]);
        Assert.Matches(@"^gestation: due \d{4}-\d\d-\d\d$", lines[9]);
        Assert.Equal(
            [
                "check check-1 is deleted",
                "status: Inseminated",
                "gestation: none",
                """pregnancy-checks: refused, /result 'result' is "Inconclusive"; allowed: one of Empty, Pregnant, Multiple, Unknown.""",
            ],
            lines[10..]);

        var window = await demo.Get("/animals/840003000000001/test-window");
        Assert.Equal("awaiting-test", (string?)window["status"]);
        Assert.False((bool)window["gate"]!["pgf"]!["allowed"]!);
        Assert.Equal(
            ["animal", "calving", "insemination"],
            (await demo.Get("/facts?animal=840003000000001"))["facts"]!.AsArray().Select(fact => (string)fact!["kind"]!).Order(StringComparer.Ordinal));

        // Everything is sent under its own identity: sent again it is the same.
        Assert.Equal(lines, await SampleProcess.Run([.. command, demo.Address]));
    }
}
