namespace ReproLink.Api.Problems;

/// <summary>One kind of problem: a stable slug, a short title and the status it is answered with on its own.</summary>
/// <param name="Slug">The last part of its address, <c>/problems/{slug}</c>.</param>
/// <param name="Title">The same words every time.</param>
/// <param name="Status">HTTP status when a whole request is refused; an item of a batch carries none.</param>
/// <param name="Help">What to do about it.</param>
public sealed record ProblemType(string Slug, string Title, int Status, string Help)
{
    /// <summary>The problem's <c>type</c>: an address relative to the service, so that it can be read where it runs.</summary>
    public string Uri => "/problems/" + Slug;
}

/// <summary>The one list of problems the service answers with (RFC 9457).</summary>
public static class ProblemTypes
{
    public static readonly ProblemType BadJson = new("bad-json", "The body is not valid JSON", 400,
        "Send UTF-8 JSON without comments or trailing commas. Nothing was stored.");

    public static readonly ProblemType BadCsv = new("bad-csv", "The body is not valid CSV", 400,
        "Send UTF-8 CSV with a header line of the documented names and comma as separator. Nothing was stored.");

    public static readonly ProblemType BadCsvLine = new("bad-csv-line", "A line of the CSV cannot be read", 400,
        "Give the line as many cells as the header has, and double every quote inside a quoted cell.");

    public static readonly ProblemType BadBatch = new("bad-batch", "The batch cannot be understood", 400,
        "Send an array of objects, at most 10,000. Nothing was stored.");

    public static readonly ProblemType InvalidRequest = new("invalid-request", "Something in the request is not allowed", 400,
        "See `errors`: each names the field, the value as sent and what is allowed.");

    public static readonly ProblemType MissingProperty = new("missing-property", "A required property is missing", 400,
        "Send the property named in `field`.");

    public static readonly ProblemType UnknownProperty = new("unknown-property", "A property is not known here", 400,
        "Leave out the property named in `field`, or correct its spelling; the names allowed here are listed.");

    public static readonly ProblemType DuplicateProperty = new("duplicate-property", "A property is there twice", 400,
        "Send each property once.");

    public static readonly ProblemType WrongType = new("wrong-type", "A value has the wrong type", 400,
        "Send the JSON type that is allowed. Null is never used: leave the property out.");

    public static readonly ProblemType InvalidValue = new("invalid-value", "A value is not allowed", 400,
        "Send one of the values that are allowed.");

    public static readonly ProblemType InTheFuture = new("in-the-future", "It lies in the future", 400,
        "Facts are things that happened: at most one day after the herd's today.");

    public static readonly ProblemType BelowFloor = new("below-floor", "A setting is beyond its safe limit", 400,
        "The rule named in the detail has a limit that no programme may undercut.");

    public static readonly ProblemType SentTwice = new("sent-twice", "The batch says two things of one result", 400,
        "Send the later one in a batch of its own: it then replaces the earlier one.");

    public static readonly ProblemType UnknownParameter = new("unknown-parameter", "A query parameter is not known here", 400,
        "Leave it out or correct its spelling.");

    public static readonly ProblemType PageExpired = new("page-expired", "The page has expired", 400,
        "A page in a browser asks for a new token by itself and sends again; callers of the API never see this.");

    public static readonly ProblemType KeyRequired = new("key-required", "A key is needed", 401,
        "Send `Authorization: Bearer KEY`.");

    public static readonly ProblemType KeyUnknown = new("key-unknown", "The key is not known", 401,
        "The key was never issued, or it was revoked.");

    public static readonly ProblemType NotPermitted = new("not-permitted", "The key's role may not do this", 403,
        "Use a key with one of the roles that are allowed.");

    public static readonly ProblemType LocationNotFound = new("location-not-found", "There is no such location", 404,
        "The location was never created, or the key may not see it.");

    public static readonly ProblemType NotFound = new("not-found", "There is nothing at this address", 404,
        "See /docs for the addresses there are.");

    public static readonly ProblemType AnimalNotFound = new("animal-not-found", "The herd has no such animal", 404,
        "An animal is on record from her first fact on, under the herd's own name of her.");

    public static readonly ProblemType FactNotFound = new("fact-not-found", "The herd has no such fact", 404,
        "Fact ids are answered when facts are posted and listed by GET /facts.");

    public static readonly ProblemType MethodNotAllowed = new("method-not-allowed", "The method is not allowed here", 405,
        "Use one of the methods in the `Allow` header.");

    public static readonly ProblemType NotAcceptable = new("not-acceptable", "None of the accepted forms can be had", 406,
        "Accept one of the media types that are allowed.");

    public static readonly ProblemType AlreadyWithdrawn = new("already-withdrawn", "The fact was withdrawn before", 409,
        "Nothing needs to be done: it does not count.");

    public static readonly ProblemType DraftNotApprovable = new("draft-not-approvable", "A draft cannot be approved", 409,
        "Mend what the programme check found and save it again.");

    public static readonly ProblemType BadProtocol = new("bad-protocol", "The protocol is not sound", 400,
        "Mend what the detail names; the published protocols at GET /protocols show the schema.");

    public static readonly ProblemType ProtocolNotFound = new("protocol-not-found", "There is no such protocol", 404,
        "GET /protocols lists them.");

    public static readonly ProblemType ProtocolIdTaken = new("protocol-id-taken", "The id belongs to a published protocol", 409,
        "Choose another id.");

    public static readonly ProblemType LinkNotFound = new("link-not-found", "There is no such calendar link", 404,
        "GET /calendar-links lists them.");

    public static readonly ProblemType WebhookNotFound = new("webhook-not-found", "There is no such webhook", 404,
        "GET /webhooks lists those the key may see.");

    public static readonly ProblemType DeliveryNotFound = new("delivery-not-found", "There is no such message", 404,
        "GET /webhooks/{webhook}/deliveries lists those that are kept.");

    public static readonly ProblemType WebhookExists = new("webhook-exists", "There is a webhook with that url", 409,
        "Change the one named; a lost secret is replaced with rotate-secret.");

    public static readonly ProblemType TooManyWebhooks = new("too-many-webhooks", "The location has as many webhooks as it may", 409,
        "Delete one that is not used.");

    public static readonly ProblemType WebhookNotActive = new("webhook-not-active", "The webhook is not active", 409,
        "Resume it with PATCH and `{\"state\":\"active\"}`.");

    public static readonly ProblemType RoundNotFound = new("round-not-found", "There is no such sampling round", 404,
        "GET /sampling-rounds lists them.");

    public static readonly ProblemType TubeNotFound = new("tube-not-found", "The round has no such tube", 404,
        "The tubes of a round are answered by GET /sampling-rounds/{round}.");

    public static readonly ProblemType NothingToFreeze = new("nothing-to-freeze", "Nobody is on that day's list", 409,
        "Ask the bleed list for the day, or name the animals.");

    public static readonly ProblemType TubeDispatched = new("tube-dispatched", "The tube has left the farm", 409,
        "Of a dispatched tube only its breaking can be recorded.");

    public static readonly ProblemType TubeWithoutBlood = new("tube-without-blood", "The tube has no blood in it", 409,
        "Record the draw first.");

    public static readonly ProblemType NothingToDispatch = new("nothing-to-dispatch", "No tube waits to leave", 409,
        "Every drawn tube has left; late draws make a second dispatch.");

    public static readonly ProblemType TubeOpen = new("tube-open", "She has another tube in the round", 409,
        "Settle the tube named first, or draw it again with `redraws`.");

    public static readonly ProblemType TubeChanged = new("tube-changed", "Somebody said something else of the tube", 409,
        "Read the round again, and send what you know with the state it has now as `was`.");

    public static readonly ProblemType HeldNotFound = new("held-not-found", "There is no such held result", 404,
        "GET /held-results lists those that wait.");

    public static readonly ProblemType HeldSettled = new("held-settled", "The held result is settled", 409,
        "A person's decision can be undone with reopen, while nothing newer came from the sender.");

    public static readonly ProblemType AssignmentContradicts = new("assignment-contradicts", "The label says otherwise", 409,
        "A result is never given to an animal that its tube contradicts; name the tube it was really in.");

    public static readonly ProblemType MappingNotFound = new("mapping-not-found", "No mapping was saved for that sender", 404,
        "PUT /result-mappings/{sender} saves one for results, PUT /fact-mappings/{sender} one for herd files.");

    public static readonly ProblemType BadArchive = new("bad-export", "The zip is not a herd as it was exported", 400,
        "Send the zip unchanged, as GET /export answered it; a file of it that was opened and saved is another file.");

    public static readonly ProblemType HerdNotEmpty = new("herd-not-empty", "The location has records already", 409,
        "Put the herd into a location without records; facts of another herd can be posted to /facts.");

    public static readonly ProblemType ClockBackwards = new("clock-backwards", "The clock is never set backwards", 409,
        "Set it to the present moment of the service or later, or start with a fresh database.");

    public static readonly ProblemType IdempotencyKeyReused = new("idempotency-key-reused",
        "The idempotency key was used with another body", 409, "Use a new key for a new request.");

    public static readonly ProblemType BodyTooLarge = new("body-too-large", "The body is too large", 413,
        "Send at most 10 MB, or what the service is set to; split a batch.");

    public static readonly ProblemType MediaTypeNotSupported = new("media-type-not-supported", "The media type is not supported here", 415,
        "Send one of the media types that are allowed, in UTF-8.");

    public static readonly ProblemType TooManyRequests = new("too-many-requests", "Too many requests", 429,
        "Wait as long as `Retry-After` says, then send it again: nothing was read or stored. Batches need fewer requests.");

    public static readonly ProblemType RequestRefused = new("request-refused", "The request was refused", 400,
        "The request does not follow HTTP.");

    public static readonly ProblemType Unavailable = new("unavailable", "The service cannot answer now", 503,
        "Try again in a moment; nothing that was not answered as stored is stored.");

    public static readonly ProblemType Internal = new("internal", "Something is wrong in the service", 500,
        "This is our fault. Nothing that was not answered as stored is stored.");

    /// <summary>All of them, in the order of their status.</summary>
    public static IReadOnlyList<ProblemType> All { get; } =
    [
        BadJson, BadCsv, BadCsvLine, BadBatch, InvalidRequest, MissingProperty, UnknownProperty, DuplicateProperty, WrongType,
        InvalidValue, InTheFuture, BelowFloor, SentTwice, BadProtocol, BadArchive, UnknownParameter, RequestRefused, PageExpired, KeyRequired, KeyUnknown, NotPermitted,
        LocationNotFound, NotFound, AnimalNotFound, FactNotFound, ProtocolNotFound, LinkNotFound, WebhookNotFound, DeliveryNotFound, RoundNotFound, TubeNotFound, HeldNotFound, MappingNotFound, MethodNotAllowed, NotAcceptable,
        AlreadyWithdrawn, ProtocolIdTaken, NothingToFreeze, TubeDispatched, TubeWithoutBlood, NothingToDispatch, TubeOpen, TubeChanged, HeldSettled,
        AssignmentContradicts, HerdNotEmpty, WebhookExists, TooManyWebhooks, WebhookNotActive,
        DraftNotApprovable, ClockBackwards, IdempotencyKeyReused, BodyTooLarge, MediaTypeNotSupported, TooManyRequests, Internal, Unavailable,
    ];

    /// <summary>What stands for a bare status that nobody gave a body.</summary>
    public static ProblemType OfStatus(int status) => status switch
    {
        401 => KeyRequired,
        403 => NotPermitted,
        404 => NotFound,
        405 => MethodNotAllowed,
        406 => NotAcceptable,
        413 => BodyTooLarge,
        415 => MediaTypeNotSupported,
        429 => TooManyRequests,
        503 => Unavailable,
        >= 500 => Internal,
        _ => RequestRefused,
    };
}
