using System.Globalization;
using System.Text.Json.Nodes;
using ReproLink.Web.Programmes;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>The fields of a programme's form as the JSON of a programme. What is no number stays a text, so that the reader refuses it as it was typed.</summary>
internal static class ProgrammeFormJson
{
    private const string CutOffs = "test.cutOffs.";

    public static JsonObject Of(SettingValues values, string inForceFrom, Dictionary<string, string> problems)
    {
        var root = new JsonObject();
        if (inForceFrom.Length > 0)
        {
            root["inForceFrom"] = inForceFrom;
        }

        foreach (var setting in SettingBook.All.Where(s => IsSent(s, values)))
        {
            if (Value(setting, values, problems) is { } value)
            {
                Put(root, setting.Path, value);
            }
        }

        return root;
    }

    private static bool IsSent(Setting setting, SettingValues values) => setting.Path switch
    {
        SettingBook.FirstServiceOn => false,
        "laboratory.minutes" => values.One("laboratory.kind") == "on-farm",
        _ when setting.Path.StartsWith("firstService.", StringComparison.Ordinal) => values.One(SettingBook.FirstServiceOn).Length > 0,
        // Cut-offs are there whole or not at all: an empty one among others is missing.
        _ when setting.Path.StartsWith(CutOffs, StringComparison.Ordinal) => values.One(setting.Path).Length > 0,
        _ => true,
    };

    private static JsonNode? Value(Setting setting, SettingValues values, Dictionary<string, string> problems)
    {
        var one = values.One(setting.Path);
        return setting.Kind switch
        {
            SettingKind.Truth => one.Length > 0,
            SettingKind.Weekdays => new JsonArray([.. values.All(setting.Path).Select(v => (JsonNode)v)]),
            SettingKind.Dates => Dates(setting, values, problems),
            SettingKind.Confirmations => new JsonArray([.. values.All(setting.Path).Select(Confirmation)]),
            _ when one.Length == 0 => null,
            SettingKind.Number => NumberOr(one),
            SettingKind.Decimal => DecimalOr(one),
            _ => one,
        };
    }

    private static JsonArray Dates(Setting setting, SettingValues values, Dictionary<string, string> problems)
    {
        var dates = new JsonArray();
        var line = 0;
        foreach (var date in values.All(setting.Path))
        {
            line++;
            if (Reading.Dates.TryDay(date, out _))
            {
                dates.Add((JsonNode)date);
            }
            else
            {
                problems.TryAdd(setting.Path, T("problem.dateLine", line, date));
            }
        }

        return dates;
    }

    private static JsonObject Confirmation(string row)
    {
        var parts = row.Split(' ');
        var item = new JsonObject { ["method"] = parts[2] };
        foreach (var (name, text) in new[] { ("from", parts[0]), ("to", parts[1]) })
        {
            if (text.Length > 0)
            {
                item[name] = NumberOr(text);
            }
        }

        return item;
    }

    private static JsonNode NumberOr(string text) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? number : text;

    private static JsonNode DecimalOr(string text) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : text;

    private static void Put(JsonObject root, string path, JsonNode value)
    {
        var parts = path.Split('.');
        var at = root;
        foreach (var part in parts[..^1])
        {
            if (at[part] is not JsonObject inner)
            {
                at[part] = inner = [];
            }

            at = inner;
        }

        at[parts[^1]] = value;
    }
}
