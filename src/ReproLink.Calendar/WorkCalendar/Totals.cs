using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>Adds up what each day asks for (5.9).</summary>
internal static class Totals
{
    public static IReadOnlyList<DayTotals> Of(IReadOnlyList<WorkItem> items, Day asOf) =>
        [.. items.GroupBy(i => i.Date).Select(day => Of(day.Key, [.. day], asOf))];

    private static DayTotals Of(Day date, List<WorkItem> items, Day asOf)
    {
        var doses = new SortedDictionary<StepKind, int>();
        var (tubes, injections) = (0, 0);
        foreach (var item in items)
        {
            if (item.IsDraw)
            {
                tubes++;
            }
            else if (item.Kind == WorkKind.Step && IsCounted(item, date, asOf) && item.Step is StepKind.Gnrh or StepKind.Pgf or StepKind.InsertIn)
            {
                doses[item.Step!.Value] = doses.GetValueOrDefault(item.Step.Value) + 1;
                injections += item.Step == StepKind.InsertIn ? 0 : 1;
            }
        }

        return new DayTotals(date, Handled(items), doses, tubes, tubes + injections);
    }

    // Firm and conditional steps ahead; on the day itself only what may be given.
    private static bool IsCounted(WorkItem item, Day date, Day asOf) =>
        item.State == StepState.Firm || (item.State == StepState.Conditional && date > asOf);

    private static int Handled(List<WorkItem> items) => items
        .Where(i => i.Animal is not null
            && i.Kind is not (WorkKind.CalvingDue or WorkKind.Alert or WorkKind.WatchOestrus)
            && i.State is StepState.Firm or StepState.Conditional)
        .Select(i => i.Animal!.Animal)
        .Distinct()
        .Count();
}
