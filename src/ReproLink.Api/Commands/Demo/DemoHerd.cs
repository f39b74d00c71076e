using System.Text;
using System.Text.Json;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Commands.Demo;

/// <summary>
/// Loads the invented herd through the same readers as the service's own doors. What happened in the last year is recorded
/// on the day it happened, so that the herd can be looked at as it was known on an earlier day.
/// </summary>
public sealed class DemoHerd(Store store, Instant now)
{
    public static readonly LocationKey Location = new("demo", "larch-hollow");

    private const string Name = "Larch Hollow";
    private const string TimeZone = "Europe/London";
    private const int DaysOfRecording = 365;
    private static readonly LocalTime EndOfWork = new(18, 0);

    private static readonly Caller Herdsman = Caller.Local with { Name = "herd-book" };
    private static readonly Caller Laboratory = Caller.Local with { Name = "laboratory" };

    private readonly DateTimeZone _zone = DateTimeZoneProviders.Tzdb[TimeZone];

    private Day Today => Day.From(now.InZone(_zone).Date);

    /// <summary>Puts the herd into the store.</summary>
    public async Task<Herd> Load()
    {
        var first = Recorded(Today - DaysOfRecording);
        var herd = await store.Herds.Put(Location, Name, TimeZone, first);
        await SaveProgramme(herd, first);
        var rows = new OffsetRows(Today, _zone);
        var facts = await rows.OfFacts(Read("herd.csv"));
        var results = await rows.OfResults(Read("results.csv"));
        var days = facts.Select(row => (Row: row, IsResult: false)).Concat(results.Select(row => (Row: row, IsResult: true)))
            .GroupBy(line => RecordingOf(line.Row, line.IsResult))
            .OrderBy(day => day.Key);
        foreach (var day in days)
        {
            var drafts = day.ToLookup(line => line.IsResult, line => line.Row.Item);
            await Record(herd, day.Key, [.. drafts[false]], [.. drafts[true]]);
        }

        return herd;
    }

    private async Task Record(Herd herd, Instant at, IReadOnlyList<BatchItem> facts, IReadOnlyList<BatchItem> results)
    {
        var reader = new FactReader(HerdRequest.Of(Herdsman, herd, at));
        await store.Facts.Append(herd, [.. facts.Select(item => Good(item, problems => reader.Read(item, problems).Draft))], at);
        if (results.Count > 0)
        {
            await RecordResults(herd, at, results);
        }
    }

    private async Task RecordResults(Herd herd, Instant at, IReadOnlyList<BatchItem> results)
    {
        var view = store.Views.Current(herd, at);
        await store.Facts.Submit(herd, store.Rounds.Look(herd, tubes => Tie(herd, at, results, new ResultMatcher(view, tubes))), at);
    }

    private static Submission Tie(Herd herd, Instant at, IReadOnlyList<BatchItem> results, ResultMatcher matcher)
    {
        var reader = new TestResultReader(HerdRequest.Of(Laboratory, herd, at));
        var tied = new List<FactDraft>();
        var held = new List<HeldDraft>();
        foreach (var item in results)
        {
            var result = Good(item, problems => reader.Read(item, problems).Result);
            var match = matcher.Tie(result);
            if (match.HeldFor is null)
            {
                tied.Add(new FactDraft(match.Animal!, result.Fact));
            }
            else
            {
                held.Add(TestResultMapping.Hold(result, match, item.Element.GetRawText()));
            }
        }

        return new Submission(tied, held);
    }

    private async Task SaveProgramme(Herd herd, Instant at)
    {
        var json = Encoding.UTF8.GetString(Read("programme.json"));
        using var document = JsonDocument.Parse(json);
        var problems = new FieldProblems();
        var programme = ProgrammeReader.Read(new ObjectReader(document.RootElement, problems), Today);
        Refuse(problems, "programme.json");
        var version = await store.Programmes.Save(herd, programme, draft: false, json, "herd-manager", at);
        await store.Programmes.Approve(herd, version, "Dr Hale", expires: null, at);
    }

    /// <summary>When a line is recorded: the evening of its day, never in the future; what is older than a year, all at once.</summary>
    private Instant RecordingOf(OffsetRow row, bool isResult)
    {
        var evening = row.Known ?? Recorded(Day.Max(row.Day, Today - DaysOfRecording));
        // A laboratory's answer is recorded after the sample it answers, on the first day together with it.
        var first = Recorded(Today - DaysOfRecording) + (isResult ? Duration.FromMinutes(1) : Duration.Zero);
        return Instant.Min(Instant.Max(evening, first), now);
    }

    private Instant Recorded(Day day) => day.Date.At(EndOfWork).InZoneLeniently(_zone).ToInstant();

    private static T Good<T>(BatchItem item, Func<FieldProblems, T?> read)
        where T : class
    {
        var problems = new FieldProblems();
        var line = read(problems);
        Refuse(problems, $"line {item.Line}");
        return line!;
    }

    // The files are held to their generator by a test; a problem here is a defect of the program.
    private static void Refuse(FieldProblems problems, string where)
    {
        if (problems.Any)
        {
            throw new InvalidDataException($"The demo herd, {where}: {problems.List[0].Detail}");
        }
    }

    private static byte[] Read(string file)
    {
        using var stream = typeof(DemoHerd).Assembly.GetManifestResourceStream("demo-data/" + file)
            ?? throw new InvalidDataException($"The program was built without demo-data/{file}.");
        using var buffer = new MemoryStream();
        stream.CopyTo(buffer);
        return buffer.ToArray();
    }
}
