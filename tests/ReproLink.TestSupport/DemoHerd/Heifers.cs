using System.Globalization;

namespace ReproLink.TestSupport.DemoHerd;

/// <summary>Young stock of breeding age: inseminated, with the bull, or not served yet.</summary>
internal static class Heifers
{
    private const string Pen = "heifers";

    public static void Write(HerdBook book, Chance chance)
    {
        for (var i = 0; i < 70; i++)
        {
            var animal = (3001 + i).ToString(CultureInfo.InvariantCulture);
            switch (i)
            {
                case < 20:
                    book.Card(animal, 0, Pen, -chance.Between(330, 400));
                    break;
                case < 38:
                    Served(book, animal, -chance.Between(390, 430), -chance.Between(1, 42), null);
                    break;
                case < 62:
                    Served(book, animal, -chance.Between(560, 640), -chance.Between(50, 250), "pregnant");
                    break;
                default:
                    WithBull(book, animal, -chance.Between(420, 470), until: i < 66 ? -12 : null);
                    break;
            }
        }
    }

    private static void Served(HerdBook book, string animal, int born, int service, string? outcome)
    {
        book.Card(animal, 0, Pen, born);
        book.Fact("insemination", animal, service, ("sire", "Fenwick"), ("sireBreed", "Holstein"), ("technician", "Mia"));
        foreach (var day in outcome is null ? [] : new[] { 32, 77, 203 }.Where(d => service + d <= -2))
        {
            book.Sample(animal, service + day);
            book.Test(animal, service + day, outcome!);
        }
    }

    private static void WithBull(HerdBook book, string animal, int born, int? until)
    {
        book.Card(animal, 0, Pen, born);
        book.Fact("exposure", animal, -40, ("untilOffset", until is { } last ? last.ToString(CultureInfo.InvariantCulture) : ""),
            ("sire", "Old Tom"), ("sireBreed", "Angus"));
    }
}
