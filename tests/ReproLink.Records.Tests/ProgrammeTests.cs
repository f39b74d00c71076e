using CsCheck;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Records.Tests;

public sealed class ProgrammeTests
{
    [Fact]
    public void Any_programme_comes_back_with_every_property() => Gen.Int[0, int.MaxValue].Sample(
        seed =>
        {
            var programme = (Programme)Anything.Make(typeof(Programme), new Random(seed));
            var difference = Anything.Difference(programme, ProgrammeJson.Read(ProgrammeJson.Write(programme)));
            return difference is null ? true : throw new InvalidOperationException(difference);
        },
        iter: 500);

    [Fact]
    public void The_defaults_come_back_with_every_property() =>
        Assert.Null(Anything.Difference(Programme.Default, ProgrammeJson.Read(ProgrammeJson.Write(Programme.Default))));

    [Fact]
    public async Task Versions_and_approvals_are_listed_as_known_at_a_moment()
    {
        await using var temp = await TempStore.WithHerd();
        var (t1, t2, t3) = (TempStore.Noon, TempStore.Noon + Duration.FromHours(1), TempStore.Noon + Duration.FromHours(2));
        var first = await temp.Store.Programmes.Save(temp.Herd, Programme.Default, draft: false, """{"a":1}""", "anna", t1);
        var second = await temp.Store.Programmes.Save(temp.Herd, Programme.Default with { InForceFrom = new Day(20_000) }, draft: true, "{}", "ben", t2);
        Assert.True(await temp.Store.Programmes.Approve(temp.Herd, first, "Dr. Vet", new Day(21_000), t3));
        Assert.False(await temp.Store.Programmes.Approve(temp.Herd, 3, "Dr. Vet", null, t3));
        Assert.Equal((1, 2), (first, second));

        var atFirst = Assert.Single(temp.Store.Programmes.List(temp.Herd, t1));
        Assert.Equal(("anna", false, """{"a":1}""", t1), (atFirst.SavedBy, atFirst.Draft, atFirst.Json, atFirst.Version.Recorded));
        Assert.Empty(atFirst.Version.Approvals);
        Assert.Equal([false, true], temp.Store.Programmes.List(temp.Herd, t2).Select(p => p.Draft));
        Assert.Empty(temp.Store.Programmes.List(temp.Herd, t2)[0].Version.Approvals);
        var approval = Assert.Single(temp.Store.Programmes.List(temp.Herd, null)[0].Version.Approvals);
        Assert.Equal(("Dr. Vet", t3, new Day(21_000)), (approval.By, approval.Recorded, approval.Expires));
    }

    [Fact]
    public async Task A_draft_does_not_govern_and_a_version_does_at_once()
    {
        await using var temp = await TempStore.WithHerd();
        Assert.False(temp.Store.Views.Current(temp.Herd, TempStore.Noon).Rules.HasSavedProgramme);
        await temp.Store.Programmes.Save(temp.Herd, Programme.Default, draft: true, "{}", "anna", TempStore.Noon);
        Assert.False(temp.Store.Views.Current(temp.Herd, TempStore.Noon).Rules.HasSavedProgramme);
        var version = await temp.Store.Programmes.Save(temp.Herd, Programme.Default, draft: false, "{}", "anna", TempStore.Noon);
        Assert.Equal(version, Assert.Single(temp.Store.Views.Current(temp.Herd, TempStore.Noon).Rules.Versions).Number);
        await temp.Store.Programmes.Approve(temp.Herd, version, "vet", null, TempStore.Noon);
        Assert.Single(temp.Store.Views.Current(temp.Herd, TempStore.Noon).Rules.Versions[0].Approvals);
    }
}
