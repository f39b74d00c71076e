using System.Runtime.CompilerServices;

// The tests send the document's own examples and know its limits.
[assembly: InternalsVisibleTo("ReproLink.Api.Tests")]
