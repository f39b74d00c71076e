using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Programmes;

/// <summary>A folded group in one line: what it says now.</summary>
public static class GroupWords
{
    /// <summary>The line.</summary>
    public static string Of(SettingGroup group, ProgrammeModel model)
    {
        ArgumentNullException.ThrowIfNull(group);
        ArgumentNullException.ThrowIfNull(model);
        string Value(string path) => SettingWords.Of(SettingBook.Find(path)!, model.Values.All(path), model.NameOf);
        return group.Name switch
        {
            "tests" => T("short.tests", Value("test.method"), model.Values.One("test.minDaysPostService"), model.Values.One("test.targetDaysPostService")),
            "week" => T("short.week", Value("week.samplingDays"), Value("week.startDays"), Value("week.morning")),
            "laboratory" when model.Values.One("laboratory.kind") == "on-farm" => T("short.onFarm", Value("laboratory.minutes")),
            "laboratory" => T("short.laboratory", Value("laboratory.dispatchDays"), model.Values.One("laboratory.transitDays"), model.Values.One("laboratory.turnaroundWorkingDays"), Value("laboratory.reportTime")),
            "resynchronisation" => T("short.resynchronisation", Value("resynchronisation.protocol"), Value("resynchronisation.protocolHeifer"), Start(model)),
            "firstService" when model.Values.One(SettingBook.FirstServiceOn).Length == 0 => T("short.noFirstService"),
            "firstService" => T("short.firstService", Value("firstService.protocol"), model.Values.One("firstService.voluntaryWaitingPeriodDays"), Value("firstService.startDays")),
            "pregnancy" => T("short.pregnancy", Value("confirmations"), model.Values.One("pregnancy.dryOffDaysBeforeDue")),
            _ => Value("recording"),
        };
    }

    private static string Start(ProgrammeModel model) => model.Values.One("resynchronisation.start") == "at-result"
        ? T("set.resynchronisation.start.at-result")
        : T("short.beforeResult", model.Values.One("resynchronisation.startDay"));
}
