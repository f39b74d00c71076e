namespace ReproLink.Api.Tests.Samples;

/// <summary>Samples run one after the other: each starts a demo, and a demo looks for a free port.</summary>
[CollectionDefinition(nameof(Samples))]
public sealed class Samples;
