using ReproLink.Calendar.Protocols;
using ReproLink.Records;

namespace ReproLink.Api.Programmes;

/// <summary>The protocols a herd's programme may name: published ones and its own.</summary>
internal sealed class ProtocolCatalogue
{
    private readonly Dictionary<string, Protocol> _own;
    private readonly HashSet<string> _confirmed;

    public ProtocolCatalogue(IEnumerable<Protocol> own, IEnumerable<string> confirmed)
    {
        _own = own.ToDictionary(p => p.Id, StringComparer.Ordinal);
        _confirmed = confirmed.ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>Published protocols alone.</summary>
    public static readonly ProtocolCatalogue Published = new([], []);

    public static ProtocolCatalogue Of(Store store, Herd herd) =>
        new(store.Protocols.Own(herd), store.Protocols.Confirmations(herd).Select(c => c.Protocol));

    public IEnumerable<Protocol> All => ProtocolLibrary.All.Values.OrderBy(p => p.Id, StringComparer.Ordinal).Concat(_own.Values);

    public Protocol? Find(string id) => _own.TryGetValue(id, out var own) ? own : ProtocolLibrary.Find(id);

    /// <summary>A schedule that was only recalled may be chosen once a veterinarian has confirmed it.</summary>
    public bool MayBeChosen(Protocol protocol) => protocol.IsSelectable || _own.ContainsKey(protocol.Id) || _confirmed.Contains(protocol.Id);
}
