namespace ReproLink.TestSupport.DemoHerd;

/// <summary>One animal for every need, status, conflict and reason, written by hand. Days count from today.</summary>
internal static class UnusualCows
{
    public static void Write(HerdBook book)
    {
        Ordinary(book);
        TooSoon(book);
        Inconclusive(book);
        Contradicting(book);
        Others(book);
    }

    private static void Ordinary(HerdBook b)
    {
        // The cow the demo asks about: served 20 days ago, so blood tells nothing yet (T1).
        Cow(b, "1042", 3, -104);
        Served(b, "1042", -20);
        Cow(b, "1043", 2, -110);
        Served(b, "1043", -33);
        Cow(b, "1044", 2, -118);
        Served(b, "1044", -52, "natural-service"); // never tested: overdue
        Cow(b, "1045", 4, -150);
        b.Fact("embryo-transfer", "1045", -23, ("embryoAgeDays", "7"), ("embryoBreed", "Jersey"), ("technician", "Mia"));
        Cow(b, "1046", 3, -99);
        Served(b, "1046", -32);
        b.Fact("treatment", "1046", -4, ("agent", "gnrh")); // started before the result
        for (var i = 0; i < 6; i++)
        {
            // One cow and one heifer a day: whatever weekday it is, the window of one of them opens by the end of the week but
            // wants a later draw (heifers are on no protocol, so nothing hurries theirs).
            Cow(b, $"105{i}", 2, -95 - i);
            Served(b, $"105{i}", -22 - i);
            b.Card($"106{i}", 0, "heifers", -410 - (7 * i));
            Served(b, $"106{i}", -22 - i);
        }
    }

    private static void TooSoon(HerdBook b)
    {
        Cow(b, "1101", 2, -36); // T2: served in the first heat after calving
        Served(b, "1101", -5);
        Cow(b, "1102", 3, -210); // T3: lost a pregnancy of more than 60 days, served since
        Served(b, "1102", -95);
        Test(b, "1102", -63, "pregnant");
        b.Fact("loss", "1102", -24, ("examined", "true"));
        Served(b, "1102", -16);
        Cow(b, "1103", 1, -130); // T4: the bull went out ten days ago
        b.Fact("exposure", "1103", -45, ("untilOffset", "-10"), ("sire", "Old Tom"), ("sireBreed", "Angus"));
        Cow(b, "1104", 1, -140); // the bull is still in
        b.Fact("exposure", "1104", -50, ("sire", "Old Tom"), ("sireBreed", "Angus"));
        Cow(b, "1105", 2, -93); // pregnant before day 90 in milk: retest from day 90, which is past
        Served(b, "1105", -59);
        Test(b, "1105", -28, "pregnant", false);
        Cow(b, "1106", 2, -76); // the same, day 90 still to come
        Served(b, "1106", -44);
        Test(b, "1106", -12, "pregnant", false);
    }

    private static void Inconclusive(HerdBook b)
    {
        Cow(b, "1201", 2, -120); // inconclusive nine days ago: again from day 7
        Served(b, "1201", -41);
        Test(b, "1201", -9, "recheck", false);
        Cow(b, "1202", 3, -112); // found inconclusive by the scanner today: too soon to sample again
        Served(b, "1202", -31);
        b.Examined("1202", 0, "recheck");
        Cow(b, "1203", 2, -140); // inconclusive twice in a row: only an examination decides
        Served(b, "1203", -55);
        Test(b, "1203", -22, "recheck", false);
        Test(b, "1203", -13, "recheck", false);
        Cow(b, "1204", 4, -125); // spoiled tube
        Served(b, "1204", -38);
        Test(b, "1204", -6, "invalid", false);
        Cow(b, "1205", 2, -131); // sampled, and the laboratory never answered
        Served(b, "1205", -44);
        b.Sample("1205", -11, onSamplingDay: false);
        Cow(b, "1206", 3, -128); // sampled on the last sampling day: the answer is on its way
        Served(b, "1206", -36);
        b.Sample("1206", 0);
        Cow(b, "1207", 2, -133); // only a value, of an assay the programme does not know: held
        Served(b, "1207", -40);
        b.Test("1207", -7, "", onSamplingDay: false, ("value", "0.44"), ("unit", "ng/mL"), ("assay", "assay-b"));
        b.Test("9999", -7, "pregnant", onSamplingDay: false); // no such animal: held
    }

    private static void Contradicting(HerdBook b)
    {
        Cow(b, "1301", 2, -160); // a: open after pregnant
        Served(b, "1301", -78);
        Test(b, "1301", -46, "pregnant", false);
        Test(b, "1301", -9, "open", false);
        Cow(b, "1302", 3, -190); // b: served again while pregnant
        Served(b, "1302", -90);
        Test(b, "1302", -58, "pregnant", false);
        Served(b, "1302", -30);
        Cow(b, "1303", 2, -170); // b: seen in heat while pregnant
        Served(b, "1303", -85);
        Test(b, "1303", -53, "pregnant", false);
        b.Fact("oestrus", "1303", -8);
        b.Card("1304", 3, "4", -1500); // c: bought, pregnant, no service on record
        b.Fact("arrival", "1304", -45);
        Test(b, "1304", -10, "pregnant", false);
        Cow(b, "1305", 2, -135); // d: two results of one sample disagree
        Served(b, "1305", -42);
        Test(b, "1305", -9, "pregnant", false);
        Test(b, "1305", -9, "open", false);
        Cow(b, "1306", 4, -420, -4); // e: calved while open
        Served(b, "1306", -284);
        Test(b, "1306", -250, "open", false);
        b.Fact("calving", "1306", -4);
        Cow(b, "1307", 3, -360, -6); // f: calved far too soon
        Served(b, "1307", -246);
        Test(b, "1307", -212, "pregnant", false);
        Test(b, "1307", -166, "pregnant", false);
        b.Fact("calving", "1307", -6);
        Cow(b, "1308", 2, -126); // g: prostaglandin given while a test was awaited
        Served(b, "1308", -50);
        b.Fact("treatment", "1308", -21, ("agent", "pgf"), ("time", "07:00"));
        Cow(b, "1309", 2, -138); // h: aborted, and nobody examined her
        Served(b, "1309", -70);
        Test(b, "1309", -38, "pregnant", false);
        b.Fact("loss", "1309", -15);
    }

    private static void Others(HerdBook b)
    {
        Cow(b, "1401", 2, -150); // due for confirmation
        Served(b, "1401", -77);
        Test(b, "1401", -44, "pregnant");
        Cow(b, "1402", 3, -290); // due for the late confirmation
        Served(b, "1402", -203);
        Test(b, "1402", -170, "pregnant");
        Test(b, "1402", -123, "pregnant");
        Cow(b, "1403", 5, -200); // not to be bred
        b.Fact("do-not-breed", "1403", -30, ("reason", "feet"));
        Cow(b, "1404", 2, -85); // not served yet
        Cow(b, "1405", 3, -120); // open, on the way to her next service
        Served(b, "1405", -42);
        Test(b, "1405", -10, "open");
        b.Fact("calving", "1406", -70); // no card: unregistered
        Served(b, "1406", -3);
        for (var i = 0; i < 14; i++)
        {
            Cow(b, $"15{i:00}", 3 + (i % 4), -300 - (i * 9)); // gone
            b.Fact("departure", $"15{i:00}", -20 - (i * 11), ("reason", i % 3 == 0 ? "died" : "sold"));
        }
    }

    // Parity is today's, so the calving of the last days counts in it.
    private static void Cow(HerdBook book, string animal, int parity, int calving, int? lastCalving = null)
    {
        book.Card(animal, parity, lastCalving is null ? "4" : "fresh", calving - 730 - ((parity - 1) * 385));
        book.Fact("calving", animal, calving);
    }

    private static void Served(HerdBook book, string animal, int offset, string kind = "insemination") =>
        book.Fact(kind, animal, offset, ("sire", "Corrie"), ("sireBreed", "Holstein"));

    private static void Test(HerdBook book, string animal, int offset, string outcome, bool onSamplingDay = true)
    {
        book.Sample(animal, offset, onSamplingDay);
        book.Test(animal, offset, outcome, onSamplingDay);
    }
}
