using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;

namespace ReproLink.Api.ProgrammeChecks;

/// <summary>Tries a programme without saving it.</summary>
internal static class CheckEndpoint
{
    public static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var problems = new FieldProblems();
        var programme = ProgrammeReader.Read(new ObjectReader(body.Root, problems), request.Today, ProtocolCatalogue.Of(store, request.Herd));
        return problems.Any ? Problem.OfBody(problems.List) : Results.Ok(CheckMapping.Answer(Run(programme, request, store)));
    }

    /// <summary>The check, on the first week the programme is in force and not past.</summary>
    public static CheckedProgramme Run(Programme programme, HerdRequest request, Store store) => ProgrammeCheck.Run(
        programme,
        new HerdRules(request.Zone, [], store.Protocols.Own(request.Herd)),
        Day.Max(programme.InForceFrom, request.Today));
}
