using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ReproLink.Records;

namespace ReproLink.Api.Pages;

/// <summary>Facts of a page's form: the same form sent twice is recorded once, also when its fact was withdrawn in between.</summary>
internal static class PageSubmitting
{
    /// <summary>Stores one fact.</summary>
    /// <param name="facts">The facts.</param>
    /// <param name="request">Who sends it.</param>
    /// <param name="draft">The fact.</param>
    /// <param name="once">What the form carried from its page.</param>
    /// <param name="said">What is answered beside it: a form sent again is answered the same.</param>
    public static async Task<PageStored> SubmitOnce(this FactLog facts, PageRequest request, FactDraft draft, string once, string said = "")
    {
        var submission = new Submission([draft], []);
        if (once.Length == 0)
        {
            var stored = (await facts.Submit(request.View.Herd, submission, request.Now)).Facts[0];
            return new PageStored(stored.Id.ToString(), stored.Status == AppendStatus.Duplicate, said);
        }

        var hash = SHA256.HashData(Encoding.UTF8.GetBytes($"{once} {draft}"));
        var record = new IdempotencyRecord(request.Caller.Name, $"page {Convert.ToHexString(hash)[..40]}", hash);
        var answer = await facts.Submit(request.View.Herd, submission, request.Now, record, stored => new StoredAnswer(200, "application/json",
            JsonSerializer.SerializeToUtf8Bytes(new PageStored(stored.Facts[0].Id.ToString(), stored.Facts[0].Status == AppendStatus.Duplicate, said))));
        return JsonSerializer.Deserialize<PageStored>(answer.Answer!.Body)!;
    }
}

/// <summary>What became of a page's fact.</summary>
/// <param name="Fact">The fact's id.</param>
/// <param name="WasThere">Whether the same was on record already.</param>
/// <param name="Said">What was answered beside it.</param>
internal sealed record PageStored(string Fact, bool WasThere, string Said);
