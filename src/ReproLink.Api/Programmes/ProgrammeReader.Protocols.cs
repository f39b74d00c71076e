using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Api.Programmes;

/// <content>The protocols a programme chooses.</content>
internal static partial class ProgrammeReader
{
    /// <summary>The word that chooses no protocol.</summary>
    public const string None = "none";

    private static ResynchronisationChoice Resynchronisation(ObjectReader reader, ProtocolCatalogue catalogue)
    {
        var usual = new ResynchronisationChoice();
        var start = reader.Word("start", ProgrammeVocabulary.Starts) ?? usual.Start;
        var choice = new ResynchronisationChoice
        {
            Protocol = Protocol(reader, catalogue, "protocol", usual.Protocol, heifers: false, start, mayBeNone: true),
            ProtocolHeifer = Protocol(reader, catalogue, "protocolHeifer", null, heifers: true, start, mayBeNone: true),
            Start = start,
            StartDay = reader.Integer("startDay", 1, 100) ?? usual.StartDay,
        };
        reader.Done();
        return choice;
    }

    private static FirstServiceChoice FirstService(ObjectReader reader, ProtocolCatalogue catalogue)
    {
        var waiting = reader.Integer("voluntaryWaitingPeriodDays", 1, MostDays) ?? 60;
        var protocol = Protocol(reader, catalogue, "protocol", "double-ovsynch-56", heifers: false, null, mayBeNone: false);
        var startDays = Weekdays(reader, "startDays") ?? [NodaTime.IsoDayOfWeek.Friday];
        reader.Done();
        return new FirstServiceChoice(waiting, protocol!, startDays);
    }

    private static string? Protocol(
        ObjectReader reader, ProtocolCatalogue catalogue, string name, string? usual, bool heifers, StartRule? start, bool mayBeNone)
    {
        var sent = reader.Text(name, TextRule.Name);
        if (mayBeNone && sent == None)
        {
            return null;
        }

        // A default is judged like a choice: it may not go with the start that was sent.
        var id = sent ?? (reader.Has(name) ? null : usual);
        if (id is null)
        {
            return null;
        }

        var fitting = catalogue.All.Where(p => IsFor(p, heifers) && catalogue.MayBeChosen(p)).ToArray();
        if (catalogue.Find(id) is not { } protocol)
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, Ids(fitting, mayBeNone), $"There is no protocol '{id}'; allowed: {Ids(fitting, mayBeNone)}.");
        }
        else if (!IsFor(protocol, heifers))
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, Ids(fitting, mayBeNone), $"The protocol '{id}' is for {ClassWords(protocol.Class)}; allowed here: {Ids(fitting, mayBeNone)}.");
        }
        else if (!catalogue.MayBeChosen(protocol))
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, Ids(fitting, mayBeNone),
                $"The schedule of '{id}' was recalled and not read again in its source: a veterinarian must confirm it first (POST /protocols/{id}/confirm).");
        }
        else if (start == StartRule.BeforeResult && protocol.Start?.Rule != StartRule.AtResult && !protocol.MayStartBeforeResult)
        {
            var allowed = Ids(fitting.Where(p => p.MayStartBeforeResult), mayBeNone);
            reader.Refuse(name, ProblemTypes.InvalidValue, allowed,
                $"The protocol '{id}' has a gated or other step before the result can be known (rule S1): start it at-result, or choose {allowed}.");
        }

        return id;
    }

    private static bool IsFor(Protocol protocol, bool heifers) => protocol.Class switch
    {
        AnimalClass.Any => true,
        AnimalClass.DairyHeifer or AnimalClass.BeefHeifer => heifers,
        _ => !heifers,
    };

    private static string Ids(IEnumerable<Protocol> protocols, bool mayBeNone) =>
        "one of " + string.Join(", ", protocols.Select(p => p.Id).Concat(mayBeNone ? [None] : []));

    private static string ClassWords(AnimalClass animals) => animals switch
    {
        AnimalClass.DairyCow => "dairy cows",
        AnimalClass.DairyHeifer => "dairy heifers",
        AnimalClass.BeefCow => "beef cows",
        AnimalClass.BeefHeifer => "beef heifers",
        _ => "any animal",
    };
}
