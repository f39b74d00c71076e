using System.Diagnostics;
using System.Globalization;
using ReproLink.Calendar.Dates;

namespace ReproLink.Benchmarks.Herds;

/// <summary>What a handy person would write instead: a script over the facts as CSV.</summary>
internal static class PlainScript
{
    private const string Text =
        """
        import csv, sys
        calved, served, sampled, today = {}, {}, {}, int(sys.argv[2])
        with open(sys.argv[1], newline='') as file:
            for animal, day, kind in csv.reader(file):
                day = int(day)
                if kind == 'calving':
                    calved[animal] = day
                elif kind == 'insemination':
                    served[animal] = day
                elif kind in ('sample', 'result'):
                    sampled[animal] = day
        print(sum(1 for animal, day in served.items() if day > calved.get(animal, -1) and day + 28 <= today
                  and calved.get(animal, -99999) + 60 <= today and not sampled.get(animal, -1) > day))
        """;

    public static void Write(HerdFile file, int animals)
    {
        File.WriteAllText(file.Beside("list.py"), Text);
        using var csv = new StreamWriter(file.Beside("facts.csv"));
        for (var animal = 0; animal < animals; animal++)
        {
            foreach (var fact in MadeHerd.History(animal, file.Today).Facts)
            {
                csv.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{MadeHerd.NameOf(animal)},{fact.Day.Number},{fact.Kind.ToString().ToLowerInvariant()}"));
            }
        }
    }

    /// <summary>What it counts; null = there is no python3 here.</summary>
    public static long? Run(HerdFile file)
    {
        try
        {
            using var python = Process.Start(new ProcessStartInfo("python3", [file.Beside("list.py"), file.Beside("facts.csv"), DayText(file.Today)])
            {
                RedirectStandardOutput = true,
            })!;
            var counted = python.StandardOutput.ReadToEnd();
            python.WaitForExit();
            return python.ExitCode == 0 ? long.Parse(counted, CultureInfo.InvariantCulture) : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }

    private static string DayText(Day day) => day.Number.ToString(CultureInfo.InvariantCulture);
}
