using ReproLink.Calendar.Explanations;

namespace ReproLink.Api.Archives;

/// <summary>The page for people in the zip.</summary>
internal static class ArchiveReadMe
{
    public static string Text => $"""
        Everything ReproLink has on record of one herd.

        It can be put back whole into an empty location: POST .../import, or `import ZIP --format herd-zip` on the command line. Lists,
        windows and calendars are not in it: they are computed from what is.

        facts.csv             what happened, also what was withdrawn since, each with the moment it was recorded
        results.csv           results of tests and examinations as received: outcome, value, unit, assay, tube
        held-results.csv      results that could not be tied to one animal, and how each ended
        programmes.json       every version of the herd's policy, the approvals and refusals
        protocols.json        the herd's own protocols, and recalled ones a veterinarian answered for
        rounds.csv, tubes.csv, tube-events.csv, dispatches.csv    sampling rounds
        received-batches.csv, received-lines.csv                  every line of every file of results, as received
        mappings.json         how senders' files are read
        herd.json             name and time zone
        contents.json         the list of these files with checksums

        `order` is the place in which things were recorded; instants are UTC.

        CAUTIONS
        - Do not change these files: a changed one is not put back. A spreadsheet changes them by merely saving (dates, leading zeros),
          and may run a cell that begins with = + - or @: bring them in as text. Lists made for people are guarded against that, these are
          exact.
        - Keys, calendar links and their secrets are not in it. Names of people and animals are: treat it as the herd's own records.
        - Put back by a manager, the approvals in it release nothing: a veterinarian approves again, or puts it back with a key of their own.
        {string.Join('\n', Cautions.All.Select(c => "- " + c))}

        """.ReplaceLineEndings("\r\n");
}
