using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Api.Rounds;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;

namespace ReproLink.Api.Labels;

/// <summary>What is printed of a round.</summary>
internal static class PrintEndpoints
{
    private const string Tag = "Sampling rounds";
    private const string Html = "text/html";

    // The pages carry names that came from outside: nothing in them may run or be fetched.
    private const string Policy = "default-src 'none'; style-src 'unsafe-inline'";

    public static void MapPrints(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/sampling-rounds/{round}/labels", LabelsOf)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe(Tag, "getLabels", "Labels to print", """
                Herd, animal, date, tube and a QR code of the tube, as a page with sizes in millimetres: print it at 100 %, without margins of the
                browser's own. A name too long for the label is shortened with an ellipsis, a number in its middle.
                """)
            .Takes(new ParameterDoc("layout", "The sheet; absent = a4-3x8.", "a4-3x8") { Words = LabelSheet.Names })
            .Takes(new ParameterDoc("paper", "custom: the page; absent = a4.", "a4") { Words = ["a4", "letter", "roll"] })
            .Takes(new ParameterDoc("rows", "custom: labels down the page.", "8", "integer"))
            .Takes(new ParameterDoc("columns", "custom: labels across the page.", "3", "integer"))
            .Takes(new ParameterDoc("marginTop", "Millimetres above the first row; of every layout, to suit the printer.", "0.5"))
            .Takes(new ParameterDoc("marginLeft", "Millimetres beside the first column; of every layout.", "0"))
            .Takes(new ParameterDoc("marginBottom", "custom: millimetres below the last row; absent = as above.", "0"))
            .Takes(new ParameterDoc("marginRight", "custom: millimetres beside the last column; absent = as at the left.", "0"))
            .Takes(new ParameterDoc("gapAcross", "custom: millimetres between columns.", "0"))
            .Takes(new ParameterDoc("gapDown", "custom: millimetres between rows.", "0"))
            .Takes(new ParameterDoc("width", "custom: width of a label in millimetres; absent = what the page leaves.", "70"))
            .Takes(new ParameterDoc("height", "custom: height of a label in millimetres; absent = what the page leaves.", "37"))
            .Takes(new ParameterDoc("skip", "Labels already used of the first sheet.", "0", "integer"))
            .Takes(new ParameterDoc("tubes", "Only these tubes, separated by commas; absent = all that are not given up.", "R12-001,R12-002"))
            .Answers(200, "The page.", Html, typeof(string), "<!doctype html>…")
            .Refuses(400, 404);
        herd.MapGet("/sampling-rounds/{round}/manifest", ManifestOf)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe(Tag, "getManifest", "What goes into the box", """
                The tubes with blood: animal, days post-service, specimen, when drawn, what is asked, and what is wrong with their storage. CSV, or a page to
                print with `Accept: text/html`.
                """)
            .Takes(new ParameterDoc("dispatch", "Only the tubes of this dispatch; absent = all tubes with blood.", "1", "integer"))
            .Answers(200, "The manifest.", RequestBody.Csv, typeof(string), "herd,round,dispatch,tube,animal,daysPostService,specimen,drawnOn,drawnAt,drawnBy,fill,question,storage\n")
            .Answers(200, "The manifest.", Html, typeof(string), "<!doctype html>…")
            .Refuses(400, 404, 406);
    }

    private static IResult LabelsOf(HttpContext context, Store store, string round) => RoundEndpoints.Find(store, context.Herd(), round) is { } found
        ? Labels(context, context.Herd(), found)
        : RoundReplies.NoRound(round);

    /// <summary>The labels a query asks for.</summary>
    public static IResult Labels(HttpContext context, HerdRequest request, Round round)
    {
        var query = new QueryReader(context);
        var sheet = LabelSheet.Read(query);
        var skip = query.Integer("skip", 0, sheet.APage - 1, 0);
        var tubes = Asked(query, round);
        return query.Done() is { } refusal ? refusal : Page(context, LabelPage.Write(request.Herd, round, tubes, sheet, skip));
    }

    private static List<Tube> Asked(QueryReader query, Round round)
    {
        if (query.Words("tubes") is not { } names)
        {
            return [.. round.Tubes.Where(t => t.Standing.State is not (TubeState.Broken or TubeState.NotDrawn))];
        }

        var tubes = new List<Tube>();
        foreach (var name in names.Split(',', StringSplitOptions.TrimEntries))
        {
            if (RoundVocabulary.Tube(round.Number, name) is { } number && round.Find(number) is { } tube)
            {
                tubes.Add(tube);
            }
            else
            {
                query.Refuse("tubes", name, $"tubes of round {RoundVocabulary.Name(round.Number)}, separated by commas");
            }
        }

        return tubes;
    }

    private static IResult ManifestOf(HttpContext context, Store store, string round)
    {
        var form = Acceptance.Of(context, RequestBody.Csv, Html);
        return RoundEndpoints.Find(store, context.Herd(), round) is not { } found ? RoundReplies.NoRound(round)
            : form is null ? Acceptance.Refusal(RequestBody.Csv, Html)
            : Manifest(context, context.Herd(), found, form == RequestBody.Csv);
    }

    /// <summary>The manifest a query asks for.</summary>
    public static IResult Manifest(HttpContext context, HerdRequest request, Round round, bool csv)
    {
        var query = new QueryReader(context);
        var dispatch = query.Integer("dispatch", 1, 10_000, 0);
        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var tubes = round.Tubes.Where(t => t.Standing.HasBlood && (dispatch == 0 || t.Standing.Dispatched?.Dispatch == dispatch)).ToList();
        return csv
            ? Results.Text(Api.Labels.Manifest.Csv(request.Herd, round, tubes), "text/csv; charset=utf-8")
            : Page(context, Api.Labels.Manifest.Html(request.Herd, round, tubes));
    }

    private static IResult Page(HttpContext context, string html)
    {
        context.Response.Headers.ContentSecurityPolicy = Policy;
        return Results.Content(html, "text/html; charset=utf-8");
    }
}
