using System.Data.Common;
using System.Text;

namespace ReproLink.Api.Problems;

/// <summary>
/// A failure for the log: which exceptions, thrown where. Their messages are left out, for they may quote what was sent; only
/// those of the database and of files are known to speak of neither animals nor people.
/// </summary>
internal static class FailureText
{
    public static string Of(Exception failure)
    {
        ArgumentNullException.ThrowIfNull(failure);
        var text = new StringBuilder();
        for (var at = failure; at is not null; at = at.InnerException)
        {
            text.Append(text.Length == 0 ? "" : "\ncaused by ").Append(at.GetType().FullName);
            if (at is DbException or (IOException and not BadHttpRequestException))
            {
                text.Append(": ").Append(at.Message);
            }

            text.Append('\n').Append(at.StackTrace);
        }

        return text.ToString();
    }
}
