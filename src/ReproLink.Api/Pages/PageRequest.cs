using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Calendar.Dates;
using ReproLink.Records;
using ReproLink.Web;

namespace ReproLink.Api.Pages;

/// <summary>What a page of a herd starts from: who looks, the herd as it is now, and the frame around the page.</summary>
internal sealed record PageRequest(Caller Caller, HerdView View, PageFrame Frame, Instant Now)
{
    /// <summary>The same as the endpoints start from.</summary>
    public HerdRequest Herd { get; } = HerdRequest.Of(Caller, View.Herd, Now);

    /// <summary>The request, or the answer instead of a page: sign in first, or there is no such herd.</summary>
    public static (PageRequest? Request, IResult? Instead) Of(HttpContext context, Store store, PageSession session, IClock clock, string? notice = null)
    {
        if (session.CallerOf(context) is not { } caller)
        {
            return (null, SignInPages.First(context));
        }

        var location = HerdAccessMiddleware.LocationOf(context);
        if (!caller.Sees(location) || !caller.Can(Permissions.Read) || store.Herds.Find(location) is not { } herd)
        {
            return (null, PageResults.NoSuchHerd());
        }

        var now = clock.GetCurrentInstant();
        var view = store.Views.Current(herd, now);
        var frame = new PageFrame(herd.Name, PathOf(location), view.AsOf, caller.Name)
        {
            MayRecord = caller.Can(Permissions.PostFacts),
            MayConfirm = caller.Can(Permissions.Confirm),
            MayManage = caller.Can(Permissions.Manage),
            MayApprove = caller.Can(Permissions.Approve),
            MayPostResults = caller.Can(Permissions.PostResults),
            Defaults = !view.Rules.HasSavedProgramme,
            TimeZone = herd.TimeZone,
            Notice = notice,
        };
        return (new PageRequest(caller, view, frame, now), null);
    }

    public static string PathOf(LocationKey location) =>
        $"/herds/{Uri.EscapeDataString(location.Scheme)}/{Uri.EscapeDataString(location.Id)}";

    /// <summary>A day in the address; what is no day is the usual one.</summary>
    public static Day DayOf(HttpContext context, string name, Day usual) =>
        Reading.Dates.TryDay(context.Request.Query[name].ToString(), out var day) ? day : usual;
}
