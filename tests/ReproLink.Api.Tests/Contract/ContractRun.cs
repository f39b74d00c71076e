using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Contract;

/// <summary>One run of random requests, the same for the same seed.</summary>
internal sealed class ContractRun
{
    private const int Rounds = 6;

    private readonly HttpClient _client;
    private readonly ContractDocument _document;
    private readonly KnownValues _known;
    private readonly Random _random;
    private readonly RequestMaker _maker;
    private readonly AnswerCheck _check;

    public ContractRun(HttpClient client, ContractDocument document, KnownValues known, IReadOnlyList<string> herds, IReadOnlyList<string> keys, int seed)
    {
        (_client, _document, _known) = (client, document, known);
#pragma warning disable CA5394 // Chance must be repeatable here, not secret.
        _random = new Random(seed);
#pragma warning restore CA5394
        _maker = new RequestMaker(document, _known, herds, keys, ContractHost.LargestBody, _random);
        _check = new AnswerCheck(new ContractSchemas(document));
    }

    /// <summary>What went wrong: the first request of every kind of fault.</summary>
    public Dictionary<string, string> Faults { get; } = [];

    /// <summary>The operations that were never answered with what was asked for, each with its last refusal.</summary>
    public Dictionary<string, string> Refused { get; } = [];

    /// <summary>
    /// Sends good requests to every operation, those that write first, then random ones to any. Those that move the clock come late, for time
    /// does not go back.
    /// </summary>
    public async Task Send(int requests, int mostFaults)
    {
        var clocks = _document.Operations.Where(o => o.Path == "/testing/clock").ToArray();
        var others = _document.Operations.Except(clocks).ToArray();
        foreach (var operation in _document.Operations)
        {
            Refused.Add(operation.Id, operation.Id);
        }

        var good = Enumerable.Range(0, Rounds).SelectMany(_ => others.OrderBy(o => o.Method == "GET")).ToArray();
        for (var sent = 0; sent < Math.Max(requests, good.Length) && Faults.Count < mostFaults; sent++)
        {
            var late = sent >= requests * 9 / 10;
            if (sent < good.Length)
            {
                await Send(_maker.Make(good[sent], mayBeBad: false), sent);
            }
            else
            {
                await Send(_maker.Make(late && sent % 50 == 0 ? clocks[0] : others[_random.Next(others.Length)]), sent);
            }
        }
    }

    private async Task Send(ContractRequest request, int number)
    {
        var operation = request.Operation;
        try
        {
            using var message = request.ToMessage(_client.BaseAddress!);
            using var answer = await _client.SendAsync(message);
            var body = await answer.Content.ReadAsStringAsync();
            if (_check.Fault(request, answer, body) is { } fault)
            {
                Keep(operation, fault, $"{number}: {request}\n  -> {(int)answer.StatusCode} {answer.Content.Headers.ContentType} {(body.Length > 600 ? body[..600] + "…" : body)}");
            }

            if (Refused.ContainsKey(operation.Id))
            {
                Refused[operation.Id] = $"{number}: {request}\n  -> {(int)answer.StatusCode} {body}";
            }

            if (answer.IsSuccessStatusCode && !request.Stray)
            {
                Refused.Remove(operation.Id);
                _known.Learn(operation.Noun, answer.Content.Headers.ContentType?.MediaType == "application/json" ? JsonNode.Parse(body) : null, answer.Headers);
            }
        }
        catch (HttpRequestException broken)
        {
            Keep(operation, $"no answer: {broken.Message}", $"{number}: {request}\n{broken}");
        }
    }

    private void Keep(ContractOperation operation, string fault, string told) =>
        Faults.TryAdd($"{operation.Id} {(fault.Length > 60 ? fault[..60] : fault)}", $"{fault}\n  {told}");
}
