using System.Runtime.CompilerServices;
using Microsoft.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

/// <summary>The committed document is the served one, and says everything there is to say.</summary>
public sealed class OpenApiTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    [Fact]
    public async Task Document_IsTheCommittedOne()
    {
        var served = (await Served()).ReplaceLineEndings("\n").TrimEnd() + "\n";
        var path = Committed();
        if (Environment.GetEnvironmentVariable("UPDATE_GOLDEN") == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            await File.WriteAllTextAsync(path, served);
        }

        Assert.True(File.Exists(path), $"{path} is missing: run the tests with UPDATE_GOLDEN=1.");
        Assert.True(served == (await File.ReadAllTextAsync(path)).ReplaceLineEndings("\n"), $"{path} is not what is served: run the tests with UPDATE_GOLDEN=1 and look at the difference.");
    }

    [Fact]
    public async Task Document_ReadStrictly_HasNoErrorsAndNoWarnings()
    {
        var read = OpenApiDocument.Parse(await Served(), "json");
        Assert.NotNull(read.Document);
        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Empty(read.Diagnostic.Warnings);
    }

    [Fact]
    public async Task EveryOperation_SaysEverything()
    {
        var document = OpenApiDocument.Parse(await Served(), "json").Document!;
        var operations = document.Paths.SelectMany(p => p.Value.Operations!.Select(o => (Name: $"{o.Key} {p.Key}", Operation: o.Value, Path: p.Key))).ToArray();
        Assert.NotEmpty(operations);
        foreach (var (name, operation, path) in operations)
        {
            Assert.False(string.IsNullOrEmpty(operation.OperationId), name);
            Assert.False(string.IsNullOrEmpty(operation.Summary), name);
            Assert.False(string.IsNullOrEmpty(operation.Description), name);
            Assert.Single(operation.Tags!);
            // The feed is opened by a secret link: calendar programs cannot send a key.
            Assert.True(!path.StartsWith("/locations", StringComparison.Ordinal) || path.EndsWith(".ics", StringComparison.Ordinal) || operation.Security is { Count: 1 }, name);
            Assert.All(operation.Parameters ?? [], p => Assert.False(string.IsNullOrEmpty(p.Description) || p.Schema is null, $"{name} {p.Name}"));
            Assert.All(operation.RequestBody?.Content?.Values ?? [], m => Assert.NotNull(m.Example));
            Assert.Contains(operation.Responses!, r => r.Key[0] == '2');
            Assert.Contains(operation.Responses!, r => r.Key[0] == '4');
            Assert.All(operation.Responses!, r => Assert.False(string.IsNullOrEmpty(r.Value.Description), $"{name} {r.Key}"));
            Assert.All(operation.Responses!.Where(r => !path.StartsWith("/problems", StringComparison.Ordinal)), r => Assert.All(r.Value.Content?.Values ?? [], m => Assert.NotNull(m.Example)));
        }

        Assert.Equal(operations.Length, operations.Select(o => o.Operation.OperationId).Distinct().Count());
    }

    [Fact]
    public async Task EveryProperty_IsDescribed()
    {
        var document = OpenApiDocument.Parse(await Served(), "json").Document!;
        foreach (var (name, schema) in document.Components!.Schemas!)
        {
            Assert.False(string.IsNullOrEmpty(schema.Description), name);
            Assert.All(schema.Properties ?? new Dictionary<string, IOpenApiSchema>(), p => Assert.False(string.IsNullOrEmpty(p.Value.Description), $"{name}.{p.Key}"));
        }
    }

    [Fact]
    public async Task EveryType_ThatATypedClientMakesOfIt_HasANameOfItsOwn()
    {
        var document = OpenApiDocument.Parse(await Served(), "json").Document!;
        var operations = document.Paths.Values.SelectMany(p => p.Operations!.Values).ToArray();
        // A closed list of words becomes a type; without a title it is named by its place, and the second one is numbered.
        var lists = operations.SelectMany(o => o.Parameters ?? []).Where(p => p.Schema!.Enum is { Count: > 0 }).Select(p => p.Schema!.Title).ToArray();
        Assert.NotEmpty(lists);
        string?[] names = [.. lists, .. document.Components!.Schemas!.Keys];
        Assert.All(names, name => Assert.Matches("^[A-Z][A-Za-z]+$", name));
        Assert.Equal(names.Length, names.Distinct().Count());
        Assert.DoesNotContain(names, name => name!.EndsWith("Contract", StringComparison.Ordinal));
        foreach (var (_, media) in operations.SelectMany(o => o.RequestBody?.Content ?? new Dictionary<string, OpenApiMediaType>()).Where(m => m.Key == "application/json"))
        {
            Assert.IsType<OpenApiSchemaReference>(media.Schema!.Items ?? media.Schema);
        }
    }

    [Fact]
    public async Task EveryTag_IsDescribed()
    {
        var document = OpenApiDocument.Parse(await Served(), "json").Document!;
        var described = document.Tags!.Where(t => !string.IsNullOrEmpty(t.Description)).Select(t => t.Name).ToHashSet();
        Assert.All(document.Paths.Values.SelectMany(p => p.Operations!.Values).SelectMany(o => o.Tags!), tag => Assert.Contains(tag.Name, described));
    }

    [Fact]
    public async Task EveryConflict_IsNamedWhereItMayHappen()
    {
        var document = OpenApiDocument.Parse(await Served(), "json").Document!;
        var told = document.Paths.Values.SelectMany(p => p.Operations!.Values).Select(o => o.Responses!.GetValueOrDefault("409")?.Description).OfType<string>().ToArray();
        Assert.All(ProblemTypes.All.Where(t => t.Status == 409), type => Assert.Contains(told, d => d.Contains(type.Title, StringComparison.Ordinal)));
        Assert.All(told, d => Assert.InRange(d.Split("; ").Length, 1, 6));
    }

    [Fact]
    public async Task Docs_AreServed()
    {
        using var client = host.CreateClient();
        Assert.True((await client.GetAsync("/docs/index.html")).IsSuccessStatusCode);
    }

    private async Task<string> Served()
    {
        using var client = host.CreateClient();
        return await client.GetStringAsync("/openapi/v1.json");
    }

    private static string Committed([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "openapi", "reprolink.v1.json"));
}
