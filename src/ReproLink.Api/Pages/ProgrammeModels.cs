using ReproLink.Api.Programmes;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;
using ReproLink.Web.Programmes;

namespace ReproLink.Api.Pages;

/// <summary>Puts together what the programme's page shows.</summary>
internal static class ProgrammeModels
{
    /// <summary>The form with its problems, or with what the check says of it.</summary>
    public static ProgrammeModel Of(
        Store store, PageRequest request, SettingValues values, string inForceFrom, int latest, IReadOnlyDictionary<string, string>? more = null)
    {
        var (programme, problems, _) = ProgrammeForm.Read(values, inForceFrom, request.View.AsOf, ProtocolCatalogue.Of(store, request.View.Herd));
        if (more is { Count: > 0 })
        {
            problems = more.Concat(problems.Where(p => !more.ContainsKey(p.Key))).ToDictionary(p => p.Key, p => p.Value, StringComparer.Ordinal);
            programme = null;
        }

        return new ProgrammeModel
        {
            Values = values,
            InForceFrom = inForceFrom,
            Problems = problems,
            Read = programme,
            Check = programme is null ? null : Check(programme, store, request),
            Latest = latest,
            Protocols = Protocols(store, request.View.Herd),
        };
    }

    /// <summary>The versions, the latest first.</summary>
    public static IReadOnlyList<VersionLine> Versions(Store store, PageRequest request, ProgrammeModel model)
    {
        var view = request.View;
        var saved = store.Programmes.List(view.Herd, null);
        var inForce = view.Rules.HasSavedProgramme ? view.Rules.On(view.AsOf).Number : 0;
        return
        [
            .. saved.Select((s, i) => new VersionLine(
                s.Version,
                VersionState.Of(s.Version, s.Draft, inForce, view.AsOf),
                s.SavedBy,
                view.Rules.DayOf(s.Version.Recorded),
                SettingWords.Differences(i == 0 ? Programme.Default : saved[i - 1].Version.Programme, s.Version.Programme, model.NameOf))).Reverse(),
        ];
    }

    private static CheckedProgramme Check(Programme programme, Store store, PageRequest request) => ProgrammeCheck.Run(
        programme,
        new HerdRules(request.View.Rules.Zone, [], store.Protocols.Own(request.View.Herd)),
        Day.Max(programme.InForceFrom, request.View.AsOf));

    private static List<ProtocolOption> Protocols(Store store, Herd herd)
    {
        var catalogue = ProtocolCatalogue.Of(store, herd);
        var own = store.Protocols.Own(herd).Select(p => p.Id).ToHashSet(StringComparer.Ordinal);
        var confirmed = store.Protocols.Confirmations(herd).ToLookup(c => c.Protocol, c => c.By, StringComparer.Ordinal);
        return
        [
            .. catalogue.All.Where(p => !own.Contains(p.Id)).Concat(store.Protocols.Own(herd)).OrderBy(p => p.Name, StringComparer.OrdinalIgnoreCase)
                .Select(p => new ProtocolOption(p, catalogue.MayBeChosen(p), own.Contains(p.Id), own.Contains(p.Id) ? null : confirmed[p.Id].LastOrDefault())),
        ];
    }
}
