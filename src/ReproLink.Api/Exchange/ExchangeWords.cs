namespace ReproLink.Api.Exchange;

/// <summary>Names this service has in the exchange standard's messages.</summary>
internal static class ExchangeWords
{
    /// <summary>The one property of our own in the standard's messages.</summary>
    public const string Extension = "org.reprolink";

    /// <summary><c>meta.source</c> of what is concluded here.</summary>
    public const string Source = "org.reprolink";

    /// <summary>Scheme of the herd's own names of animals.</summary>
    public const string AnimalScheme = "org.reprolink.animal";

    /// <summary>Scheme under which a management tag is kept beside an animal's identifiers.</summary>
    public const string TagScheme = "org.reprolink.management-tag";

    /// <summary>Scheme of breeds in plain words.</summary>
    public const string BreedScheme = "org.reprolink.breed";

    /// <summary>
    /// Source of the cards that only say which animal an identifier belongs to. The first character there is: of two
    /// undated cards the one with the greater source counts, and these must never outrank a card that somebody sent.
    /// </summary>
    public const string IdentifierSource = "!exchange";
}
