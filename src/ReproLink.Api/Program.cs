return await ReproLink.Api.Commands.CommandLine.Run(args);

/// <summary>The executable; named so that tests can host it.</summary>
public partial class Program;
