using System.Runtime.CompilerServices;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Status;

public sealed partial class HistoryFold
{
    // Stands for a reason that nobody will read.
    private static readonly Reason Unsaid = Reason.Of("", "");

    // Reasons are made only while somebody traces the fold: their sentences cost many times what the fold does.
    private Reason Because(string rule, string text, FactId fact) =>
        _trace is null ? Unsaid : Reason.Of(rule, text, fact);

    private Reason Because(string rule, string text, FactId fact, FactId other) =>
        _trace is null ? Unsaid : Reason.Of(rule, text, fact, other);

    private Reason Because(string rule, [InterpolatedStringHandlerArgument("")] ref TracedText text, FactId fact) =>
        _trace is null ? Unsaid : Reason.Of(rule, text.Made(), fact);

    private Reason Because(string rule, [InterpolatedStringHandlerArgument("")] ref TracedText text, FactId fact, FactId other) =>
        _trace is null ? Unsaid : Reason.Of(rule, text.Made(), fact, other);

    private void Raise(Conflict conflict, string text)
    {
        _state.Add(conflict);
        NoteRaised(conflict, text);
    }

    private void Raise(Conflict conflict, [InterpolatedStringHandlerArgument("")] ref TracedText text)
    {
        _state.Add(conflict);
        if (_trace is not null)
        {
            NoteRaised(conflict, text.Made());
        }
    }

    private void NoteRaised(Conflict conflict, string text)
    {
        if (_trace is null)
        {
            return;
        }

        var rule = $"T7 {conflict.Letter}";
        var reason = conflict.Against is { } against && against != conflict.RaisedBy
            ? Reason.Of(rule, text, conflict.RaisedBy, against)
            : Reason.Of(rule, text, conflict.RaisedBy);
        _trace.Note(conflict.RaisedBy, reason);
    }

    /// <summary>A sentence whose parts are not even asked for while nobody traces the fold.</summary>
    [InterpolatedStringHandler]
    private ref struct TracedText
    {
        private DefaultInterpolatedStringHandler _text;

        public TracedText(int literalLength, int formattedCount, HistoryFold fold, out bool isWanted)
        {
            isWanted = fold._trace is not null;
            _text = isWanted
                ? new DefaultInterpolatedStringHandler(literalLength, formattedCount, System.Globalization.CultureInfo.InvariantCulture)
                : default;
        }

        public void AppendLiteral(string text) => _text.AppendLiteral(text);

        public void AppendFormatted<T>(T value) => _text.AppendFormatted(value);

        public string Made() => _text.ToStringAndClear();
    }
}
