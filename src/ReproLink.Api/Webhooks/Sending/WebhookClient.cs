using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Security.Authentication;
using System.Text;
using NodaTime;
using ReproLink.Records;
using StandardWebhooks;

namespace ReproLink.Api.Webhooks.Sending;

/// <summary>What a receiver answered.</summary>
/// <param name="Status">Its HTTP status; null = there was no answer.</param>
/// <param name="Error">What went wrong, in a sentence; null = it took the message.</param>
/// <param name="RetryAfter">How long it wants to be left alone.</param>
/// <param name="Took">How long it took.</param>
internal sealed record Reply(int? Status, string? Error, Duration? RetryAfter, Duration Took);

/// <summary>Posts messages as the Standard Webhooks specification wants them. Nothing of an answer but its head is read.</summary>
internal sealed class WebhookClient : IDisposable
{
    private const int Gone = 410;
    private readonly WebhookOptions _options;
    private readonly HttpClient _http;

    public WebhookClient(WebhookOptions options, Destinations destinations)
    {
        _options = options;
        _http = new HttpClient(new SocketsHttpHandler
        {
            ConnectCallback = destinations.Connect,
            AllowAutoRedirect = false,
            UseCookies = false,
            // A proxy would connect where it likes, and without us judging the address.
            UseProxy = false,
            ActivityHeadersPropagator = null,
            MaxResponseHeadersLength = 16,
            MaxResponseDrainSize = 0,
            PooledConnectionLifetime = TimeSpan.FromMinutes(2),
        })
        {
            Timeout = Timeout.InfiniteTimeSpan,
        };
        _http.DefaultRequestHeaders.UserAgent.Add(new ProductInfoHeaderValue("ReproLink", "1"));
    }

    /// <summary>Whether an answer says that no more messages are wanted.</summary>
    public static bool IsGone(Reply reply) => reply.Status == Gone;

    /// <summary>Sends a message once.</summary>
    /// <exception cref="OperationCanceledException">The service is being stopped; whether it arrived is not known.</exception>
    public async Task<Reply> Post(SendingClaim claim, Instant now, CancellationToken stopping)
    {
        var watch = Stopwatch.StartNew();
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(stopping);
        patience.CancelAfter(_options.Timeout.ToTimeSpan());
        try
        {
            using var request = Request(claim, now);
            using var answer = await _http.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, patience.Token);
            var status = (int)answer.StatusCode;
            return new Reply(status, Judge(status), RetryAfter(answer.Headers.RetryAfter, now), Took());
        }
        catch (OperationCanceledException) when (!stopping.IsCancellationRequested)
        {
            return new Reply(null, string.Create(CultureInfo.InvariantCulture, $"There was no answer within {_options.Timeout.TotalSeconds} s."), null, Took());
        }
        catch (HttpRequestException failed)
        {
            return new Reply(null, Sentence(failed), null, Took());
        }

        Duration Took() => Duration.FromTimeSpan(watch.Elapsed);
    }

    public void Dispose() => _http.Dispose();

    private static HttpRequestMessage Request(SendingClaim claim, Instant now)
    {
        var at = now.ToDateTimeOffset();
        var content = new ByteArrayContent(Encoding.UTF8.GetBytes(claim.Body));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json") { CharSet = "utf-8" };
        var request = new HttpRequestMessage(HttpMethod.Post, new Uri(claim.Url)) { Content = content };
        request.Headers.Add("webhook-id", claim.Id);
        request.Headers.Add("webhook-timestamp", at.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture));
        request.Headers.Add("webhook-signature", Signatures(claim, at));
        return request;
    }

    private static string Signatures(SendingClaim claim, DateTimeOffset at)
    {
        var signatures = claim.Secrets.Select(secret => new StandardWebhook(secret).Sign(claim.Id, at, claim.Body)).ToList();
        if (signatures.Count > 1)
        {
            // The verifier of the library that signs here never looks at the last of several (1.1.2); others do not mind a repetition.
            signatures.Add(signatures[0]);
        }

        return string.Join(' ', signatures);
    }

    private static string? Judge(int status) => status switch
    {
        >= 200 and < 300 => null,
        >= 300 and < 400 => $"The receiver answered {status}: redirects are not followed, change the webhook's url.",
        Gone => "The receiver answered 410: it wants no more messages.",
        429 => "The receiver answered 429: too many messages.",
        _ => $"The receiver answered {status}.",
    };

    private static Duration? RetryAfter(RetryConditionHeaderValue? header, Instant now) => header switch
    {
        { Delta: { } wait } => Duration.FromTimeSpan(wait),
        { Date: { } date } when Instant.FromDateTimeOffset(date) > now => Instant.FromDateTimeOffset(date) - now,
        _ => null,
    };

    private static string Sentence(HttpRequestException failed)
    {
        for (Exception? inner = failed; inner is not null; inner = inner.InnerException)
        {
            switch (inner)
            {
                case DestinationRefusedException refused:
                    return refused.Message;
                case AuthenticationException:
                    return "The receiver's certificate is not trusted, or it does not speak TLS.";
                case SocketException { SocketErrorCode: SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain }:
                    return "The receiver's name was not found.";
                case SocketException { SocketErrorCode: SocketError.ConnectionRefused }:
                    return "Nobody listens at the receiver's address.";
                case SocketException:
                    return "The receiver could not be reached.";
            }
        }

        return failed.HttpRequestError is HttpRequestError.InvalidResponse or HttpRequestError.ConfigurationLimitExceeded
            ? "The receiver's answer is not HTTP."
            : "The connection broke before there was an answer.";
    }
}
