using System.Globalization;
using ReproLink.Records;
using Lists = ReproLink.Calendar.Testing.BleedLists;

namespace ReproLink.Api.Commands.Demo;

/// <summary>What the demo says once it listens: where it is and the first three questions to ask.</summary>
internal static class DemoGreeting
{
    /// <summary>The cow of the second and third question: served 20 days ago, whatever day it is.</summary>
    private const string Cow = "1042";

    public static string Text(string address, HerdView view)
    {
        var today = view.AsOf;
        var list = Lists.Make(view.Animals, view.Rules, today, today + 6, today);
        var herd = $"{address}/locations/{Locations.Text(DemoHerd.Location)}";
        var days = string.Join(", ", list.Days.Select(d => string.Create(CultureInfo.InvariantCulture, $"{d.Date.Weekday} {d.Date.ToSentence()}: {d.Count}")));
        return $"""

            {view.Herd.Name}, an invented herd of {view.Animals.Count} animals, seen on {today.ToSentence()}.
            To bleed this week - {days}.

              pages           {address}/
              API             {herd}
              documentation   {address}/docs

            Three questions to begin with (no key is needed from this machine):

            1. Which cows do we bleed this week?
               curl '{herd}/bleed-list?from={today}&to={today + 6}'
               curl -H 'Accept: text/csv' '{herd}/bleed-list?from={today}&to={today + 6}'

            2. Why not cow {Cow}?
               curl '{herd}/animals/{Cow}/test-window?on={today}'

            3. What happened to her?
               curl '{herd}/animals/{Cow}/timeline'

            """;
    }
}
