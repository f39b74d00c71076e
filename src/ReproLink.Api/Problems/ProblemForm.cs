namespace ReproLink.Api.Problems;

/// <summary>Left on a request whose refusals have another form than a problem of our own.</summary>
/// <param name="MediaType">Its media type.</param>
/// <param name="Write">A problem in that form.</param>
internal sealed record ProblemForm(string MediaType, Func<ProblemBody, object> Write);
