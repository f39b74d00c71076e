using System.Text;

namespace ReproLink.Api.Tests.Contract;

/// <summary>A made request.</summary>
/// <param name="Operation">The operation it is meant for.</param>
/// <param name="Method">Method.</param>
/// <param name="Target">Path and query as they go over the wire.</param>
/// <param name="Headers">Headers, as they go over the wire.</param>
/// <param name="Body">Body; absent = none.</param>
/// <param name="MediaType">Its Content-Type; absent = none.</param>
internal sealed record ContractRequest(
    ContractOperation Operation, string Method, string Target, IReadOnlyList<(string Name, string Value)> Headers, byte[]? Body, string? MediaType)
{
    /// <summary>Whether it may reach another operation than its own, or none: a path that is empty in parts or written oddly.</summary>
    public bool Stray { get; init; }

    public HttpRequestMessage ToMessage(Uri server)
    {
        // The client would tidy the address up; the service must see what was written.
        var message = new HttpRequestMessage(new HttpMethod(Method), new Uri(server.GetLeftPart(UriPartial.Authority) + Target, new UriCreationOptions { DangerousDisablePathAndQueryCanonicalization = true }));
        if (Body is not null)
        {
            message.Content = new ByteArrayContent(Body);
            if (MediaType is not null)
            {
                message.Content.Headers.TryAddWithoutValidation("Content-Type", MediaType);
            }
        }

        foreach (var (name, value) in Headers)
        {
            message.Headers.TryAddWithoutValidation(name, value);
        }

        return message;
    }

    public override string ToString()
    {
        var body = Body is null ? "" : $"\n  {MediaType}: {Short(Encoding.UTF8.GetString(Body))}";
        return $"{Method} {Short(Target)} ({Operation.Id}) {string.Join(", ", Headers.Select(h => $"{h.Name}: {Short(h.Value)}"))}{body}";
    }

    private static string Short(string text) => text.Length <= 1500 ? text : text[..1500] + "…";
}
