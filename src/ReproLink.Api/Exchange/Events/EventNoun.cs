using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Events;

/// <summary>One kind of event of the standard: where it is, what it is called, and how it becomes a fact and back.</summary>
/// <param name="Path">The standard's noun.</param>
/// <param name="Word">The noun in a sentence.</param>
/// <param name="ResourceType">The standard's name of the message.</param>
/// <param name="Kinds">The kinds of fact it may be here.</param>
internal abstract record EventNoun(string Path, string Word, string ResourceType, KindSet Kinds)
{
    /// <summary>The property that names the animal.</summary>
    public string AnimalProperty { get; init; } = "animal";

    /// <summary>What a sender needs.</summary>
    public Permissions Posts { get; init; } = Permissions.PostFacts;

    /// <summary>Whether it is the result of a test or examination: one that cannot be tied to one animal waits for a person.</summary>
    public bool IsResult { get; init; }

    /// <summary>Whether a fact of these kinds is such an event.</summary>
    public Func<Fact, bool> Shows { get; init; } = _ => true;

    /// <summary>Another spelling of the message's name that is about.</summary>
    public string? AlsoCalled { get; init; }

    /// <summary>Reads the event's own properties. A stand-in where something is wrong: it is thrown away then.</summary>
    public required Func<EventInput, Fact> Read { get; init; }

    /// <summary>Further facts one event may tell, by what is appended to its sourceId; one that is no longer told is withdrawn.</summary>
    public IReadOnlyList<(string Suffix, Func<EventInput, Fact?> Read)> Besides { get; init; } = [];

    /// <summary>What is said of it in the document.</summary>
    public required string Description { get; init; }

    /// <summary>An example of its own properties, without braces.</summary>
    public required string Example { get; init; }

    /// <summary>The type of its message.</summary>
    public abstract Type Message { get; }

    /// <summary>The type of a page of them.</summary>
    public abstract Type Page { get; }

    /// <summary>An event as it goes out.</summary>
    public abstract ExchangeResource Write(EventOutput output);

    /// <summary>A page as it goes out.</summary>
    public abstract object WritePage(PageView view, IEnumerable<EventOutput> outputs);
}

/// <inheritdoc/>
/// <typeparam name="T">Its message.</typeparam>
internal sealed record EventNoun<T>(string Path, string Word, string ResourceType, KindSet Kinds, Func<EventOutput, T> Map)
    : EventNoun(Path, Word, ResourceType, Kinds)
    where T : AnimalEvent
{
    public override Type Message => typeof(T);

    public override Type Page => typeof(MemberPage<T>);

    public override ExchangeResource Write(EventOutput output) => Fill(output);

    public override object WritePage(PageView view, IEnumerable<EventOutput> outputs) =>
        new MemberPage<T> { View = view, Member = [.. outputs.Select(Fill)] };

    private T Fill(EventOutput output)
    {
        var message = Map(output);
        output.Fill(message, this);
        return message;
    }
}
