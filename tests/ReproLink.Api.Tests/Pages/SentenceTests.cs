using System.Text.RegularExpressions;
using ReproLink.Web.Words;

namespace ReproLink.Api.Tests.Pages;

/// <summary>Every sentence of the pages stands in the table of its language, by a key that is there and is used.</summary>
public sealed partial class SentenceTests
{
    private static readonly string Source = FindSource();

    // What is not said to anybody: the name of the program, a command as it is typed, the ids of what describes a field.
    private static readonly HashSet<string> NoSentences = ["ReproLink", "keys create NAME --role manager", "zone-problem zone-hint", "problem name-hint"];

    // Keys put together while running: the beginning stands in the code, the rest is a word of the data.
    private static readonly string[] PutTogether =
    [
        "approval.", "chain.", "check.picture.", "check.table.", "check.title.", "chute.script.", "date.dated.", "date.day.", "date.long.", "date.short.", "figures.ask.", "figures.says.",
        "group.", "key.", "language.", "letter.", "mark.", "method.", "month.", "notice.", "reading.", "role.", "set.", "standing.", "step.small.", "unit.", "use.", "weekday.",
        "animals.", "evidence.",
    ];

    public static TheoryData<string> Components => [.. Directory.EnumerateFiles(Path.Combine(Source, "ReproLink.Web"), "*.razor", SearchOption.AllDirectories)
        .Where(IsSource).Select(f => Path.GetRelativePath(Source, f))];

    [Theory]
    [MemberData(nameof(Components))]
    public void No_page_has_a_sentence_of_its_own(string file)
    {
        var markup = File.ReadAllText(Path.Combine(Source, file));
        Assert.DoesNotContain(Literals(markup), l => !NoSentences.Contains(l));
    }

    [Fact]
    public void The_test_above_sees_a_sentence_wherever_it_stands()
    {
        Assert.Equal(["Read this"], Literals("<p>Read this</p>"));
        Assert.Equal(["Read this"], Literals("<p class=\"x\">@Name Read this</p>"));
        Assert.Equal(["Read this"], Literals("<input aria-label=\"Read this\" />"));
        Assert.Equal(["Read this"], Literals("<Field Label=\"Read this\" />"));
        Assert.Equal(["Read this"], Literals("@if (x)\n{\n<p>@(y ? \"\" : z)</p>\n<td>Read this @foreach (var a in b) {<b>@a</b>}</td>\n}"));
        Assert.Equal(["Read this"], Literals("<p>@(Pen is null ? \"Read this\" : null)</p>"));
        Assert.Empty(Literals("<p class=\"supplies wide\">@T(\"week.none\") · @Number(\"week.x\", 3)</p>"));
    }

    [Fact]
    public void Every_key_that_is_used_is_there_and_every_key_that_is_there_is_used()
    {
        var code = string.Concat(Files("*.razor").Concat(Files("*.cs")).Select(File.ReadAllText));
        var known = Language.English.Keys.Select(Whole).ToHashSet();
        var used = Quoted().Matches(code).Select(m => m.Groups[1].Value).ToHashSet();
        Assert.DoesNotContain(Called().Matches(code).Select(m => m.Groups[1].Value), k => !known.Contains(k) && !(k.EndsWith('.') && PutTogether.Any(p => k.StartsWith(p, StringComparison.Ordinal))));
        Assert.DoesNotContain(known, k => !used.Contains(k) && !PutTogether.Any(p => k.StartsWith(p, StringComparison.Ordinal)));
        Assert.DoesNotContain(PutTogether, p => !known.Any(k => k.StartsWith(p, StringComparison.Ordinal)));
    }

    [Fact]
    public void A_language_has_only_keys_of_English_and_the_same_places()
    {
        foreach (var language in Language.All)
        {
            Assert.Empty(language.Keys.Except(Language.English.Keys));
            // A date leaves out what its style does not say: that alone may differ.
            Assert.All(language.Keys.Where(k => !k.StartsWith("date.", StringComparison.Ordinal)), key => Assert.Equal(Places(Language.English.Text(key)), Places(language.Text(key))));
            Assert.All(language.Keys.Where(k => k.StartsWith("date.", StringComparison.Ordinal)), key => Assert.Subset(new HashSet<string> { "{0}", "{1}", "{2}", "{3}", "{4}", "{5}" }, Places(language.Text(key)).ToHashSet()));
        }
    }

    private static string[] Places(string text) => [.. Place().Matches(text).Select(m => m.Value).Distinct().Order()];

    // The plural forms stand under one key.
    private static string Whole(string key) => key[..(key.LastIndexOf('.') + 1)] is var stem
        && key[stem.Length..] is "one" or "other" && Language.English.Keys.Contains(stem + "one") && Language.English.Keys.Contains(stem + "other")
            ? stem[..^1]
            : key;

    /// <summary>What a component says by itself: text between tags, attributes that are read out, words chosen in an expression.</summary>
    private static IEnumerable<string> Literals(string file)
    {
        var code = file.IndexOf("\n@code", StringComparison.Ordinal);
        var markup = Comment().Replace(code < 0 ? file : file[..code], "");
        var own = ReadOut().Matches(markup).Select(m => m.Groups[1].Value);
        var chosen = InExpression().Matches(markup).Select(m => m.Groups[1].Value).Where(t => t.Contains(' ', StringComparison.Ordinal));
        // Tags without what stands in quotation marks; then expressions, with what they hold in brackets; then statements.
        var bare = Statement().Replace(Expression().Replace(Tag().Replace(markup, "\u0001"), " "), "\u0001");
        var texts = bare.Split('\u0001').Select(t => Entity().Replace(t, "").Trim(' ', '\n', '\r', '·', ',', '–', ':', ';', '{', '}', '(', ')', '%', '×', '“', '”', '.', '/'));
        return own.Concat(chosen).Concat(texts).Where(t => Letters().IsMatch(t));
    }

    private static IEnumerable<string> Files(string pattern) => new[] { "ReproLink.Web", "ReproLink.Api" }
        .SelectMany(p => Directory.EnumerateFiles(Path.Combine(Source, p), pattern, SearchOption.AllDirectories)).Where(IsSource);

    private static bool IsSource(string file) => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
        && !file.Contains($"{Path.DirectorySeparatorChar}bin{Path.DirectorySeparatorChar}", StringComparison.Ordinal) && Path.GetFileName(file) != "_Imports.razor";

    private static string FindSource()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ReproLink.sln")))
        {
            folder = folder.Parent!;
        }

        return Path.Combine(folder.FullName, "src");
    }

    [GeneratedRegex(@"@\*.*?\*@|^\s*//.*$|^@using.*$|<!DOCTYPE[^>]*>", RegexOptions.Singleline | RegexOptions.Multiline)]
    private static partial Regex Comment();

    [GeneratedRegex(@"\b(?:aria-label|title|placeholder|data-label|alt|Title|Label|Caption|Heading|Hint|Unit|Description|Back)=""([^@""]*[A-Za-z]{2}[^""]*)""")]
    private static partial Regex ReadOut();

    // Both branches of a choice, unless they are keys.
    [GeneratedRegex(@"[?:] \$?""([^""{]*[A-Za-z]{2}[^""]*)""(?=\s*[:)])")]
    private static partial Regex InExpression();

    [GeneratedRegex(@"</?[A-Za-z](?:""(?:@\((?>[^()]+|\((?<d>)|\)(?<-d>))*(?(d)(?!))\)|@[^""\s(]*\((?>[^()]+|\((?<d>)|\)(?<-d>))*(?(d)(?!))\)|[^""])*""|[^"">])*>")]
    private static partial Regex Tag();

    [GeneratedRegex(@"@(?!(?:if|foreach|for|switch|while)\b)(?:\w[\w.!?]*)?(?:(?:\((?>[^()]+|\((?<d>)|\)(?<-d>))*(?(d)(?!))\)|\[[^\]]*\])[\w.!?]*)*")]
    private static partial Regex Expression();

    [GeneratedRegex(@"@?\b(?:if|else if|foreach|for|switch|while) ?\((?>[^()]+|\((?<d>)|\)(?<-d>))*(?(d)(?!))\)|\belse\b|\b(?:case [\w.]+|default):|\bbreak;|\bcontinue;|\bvar [^;]*;")]
    private static partial Regex Statement();

    [GeneratedRegex("&[a-z]+;")]
    private static partial Regex Entity();

    [GeneratedRegex("[A-Za-z]{2}")]
    private static partial Regex Letters();

    [GeneratedRegex("\"([a-zA-Z]+\\.[\\w.-]+)\"")]
    private static partial Regex Quoted();

    [GeneratedRegex("(?<![\\w.])(?:Text\\.)?(?:T|OfDates|Number)\\(\\$?\"([a-zA-Z]+\\.[\\w.-]+)\"(?! [^+,)])(?!, \"[A-Z]?[\\w. ]*\", )")]
    private static partial Regex Called();

    [GeneratedRegex(@"\{\d+\}")]
    private static partial Regex Place();
}
