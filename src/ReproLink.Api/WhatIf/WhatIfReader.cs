using System.Text.Json;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;

namespace ReproLink.Api.WhatIf;

/// <summary>What was asked: the herd's own rates, the programmes to compare, and prices.</summary>
/// <param name="Own">The herd's own rates.</param>
/// <param name="Programmes">The programmes, as the engine takes them.</param>
/// <param name="Prices">Prices; null = no money.</param>
internal sealed record WhatIfAsked(HerdOwnRates Own, IReadOnlyList<WhatIfProgramme> Programmes, Prices? Prices);

/// <summary>Reads a what-if, from the API or from the page's form: the same reader judges both, and names all that is wrong at once.</summary>
internal sealed class WhatIfReader
{
    private const int MostDaysInMilk = 1000;

    private readonly HerdView _view;
    private readonly ProtocolCatalogue _catalogue;
    private readonly FieldProblems _problems;
    private readonly ProgrammeVersion _current;

    private WhatIfReader(HerdView view, ProtocolCatalogue catalogue, FieldProblems problems)
    {
        (_view, _catalogue, _problems) = (view, catalogue, problems);
        _current = view.Rules.On(view.AsOf);
    }

    /// <summary>The question; null when something in it is not allowed, which is then in <paramref name="problems"/>.</summary>
    public static WhatIfAsked? Read(JsonElement root, HerdView view, ProtocolCatalogue catalogue, FieldProblems problems)
    {
        var reader = new ObjectReader(root, problems);
        return reader.IsObject ? new WhatIfReader(view, catalogue, problems).Read(reader) : null;
    }

    private WhatIfAsked? Read(ObjectReader reader)
    {
        var own = Own(reader);
        var rates = reader.Object("rates") is { } sent ? RateInputs.Read(sent) : new RateInputs();
        var test = reader.Object("test") is { } common ? TestInputs.Read(common) : new TestInputs();
        var prices = reader.Object("prices") is { } priced ? Priced(priced) : null;
        var allowed = $"a list of 1 to {WhatIfComparison.Most} programmes";
        var elements = reader.List("programmes", WhatIfComparison.Most, allowed);
        if (elements is { Count: 0 } || !reader.Has("programmes"))
        {
            reader.Refuse("programmes", elements is null ? ProblemTypes.MissingProperty : ProblemTypes.InvalidValue, allowed);
        }

        var programmes = new List<WhatIfProgramme>();
        var names = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < elements?.Count; i++)
        {
            var item = new ObjectReader(elements[i], _problems, reader.Path("programmes", i));
            if (item.IsObject && Programme(item, own, rates, test, names) is { } programme)
            {
                programmes.Add(programme);
            }
        }

        reader.Done();
        return _problems.Any ? null : new WhatIfAsked(own, programmes, prices);
    }

    private HerdOwnRates Own(ObjectReader reader)
    {
        var last = HerdOwnRates.LastSettled(_view.AsOf);
        var (from, to) = (reader.Day("from"), reader.Day("to"));
        if (to > last)
        {
            reader.Refuse("to", ProblemTypes.InvalidValue, $"a day up to {last}: the outcome of later services is not known yet");
            to = null;
        }

        if (from > (to ?? last))
        {
            reader.Refuse("from", ProblemTypes.InvalidValue, $"a day up to 'to', {to ?? last}");
            from = null;
        }

        return KeptRates.Of(_view, from, to);
    }

    private WhatIfProgramme? Programme(ObjectReader reader, HerdOwnRates own, RateInputs common, TestInputs test, HashSet<string> names)
    {
        var name = reader.Text("name", TextRule.Name, required: true);
        if (name is not null && !names.Add(name))
        {
            reader.Refuse("name", ProblemTypes.InvalidValue, "another name for each programme");
        }

        var rates = reader.Object("rates") is { } sent ? RateInputs.Read(sent, common) : common;
        var asked = reader.Object("test") is { } own2 ? TestInputs.Read(own2, test) : test;
        var days = reader.Object("days") is { } given ? DayInputs.Read(given) : null;
        var course = days?.Course ?? Course(reader, reader.Has("days"));
        reader.Done();
        var herd = rates.Herd(own, course, _problems);
        return name is null || course is null || herd is null ? null : new WhatIfProgramme(name, course, herd, asked.Test(own));
    }

    private ProgrammeCourse? Course(ObjectReader reader, bool daysWereSent)
    {
        var before = _problems.List.Count;
        using var merged = ProgrammeChanges.Merge(_current, reader, "changes");
        if (merged is null)
        {
            return null;
        }

        var programme = ProgrammeReader.Read(new ObjectReader(merged.RootElement, _problems, reader.Path("changes")), _view.AsOf, _catalogue);
        if (_problems.List.Count > before || daysWereSent)
        {
            return null;
        }

        var (course, why) = CourseMaker.Of(programme, [.. _view.Rules.OwnProtocols]);
        if (course is null)
        {
            _problems.Add(ProblemTypes.InvalidValue, reader.Path("changes"), null, "a programme whose open cows are put on a protocol with a timed insemination, or 'days'", Sentence(why!.Value));
        }

        return course;
    }

    private static string Sentence(NoCourse why) => why switch
    {
        NoCourse.NoProtocol => "Open cows are put on no protocol: when they are served again is not known. Choose one in 'changes', or send 'days'.",
        NoCourse.NoInsemination => "The protocol ends with watching for oestrus: when open cows are served again is not known. Choose another in 'changes', or send 'days'.",
        _ => "An answer, or a start after it, never comes: there is no sampling, dispatch, laboratory or start day for it.",
    };

    private static Prices? Priced(ObjectReader reader)
    {
        var last = reader.Integer("lastServiceDay", 30, MostDaysInMilk, required: true);
        double? Price(string name) => Shares.Number(reader, name, 0, 1_000_000);
        var prices = new Prices
        {
            LastServiceDay = last ?? 0,
            Currency = reader.Text("currency", TextRule.Name),
            DayOpen = Price("dayOpen"),
            Service = Price("service"),
            Test = Price("test"),
            Confirmation = Price("confirmation"),
            Gnrh = Price("gnrh"),
            Pgf = Price("pgf"),
            Insert = Price("insert"),
            LostPregnancy = Price("lostPregnancy"),
        };
        reader.Done();
        return last is null ? null : prices;
    }
}
