using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Figures.WhatIf;

namespace ReproLink.Api.WhatIf;

/// <summary>Days given in place of a programme's own: all four, or none.</summary>
internal sealed record DayInputs(ProgrammeCourse? Course)
{
    private const int ResampleAfter = 7;

    public static DayInputs Read(ObjectReader reader)
    {
        var test = reader.Integer("test", 28, 200, required: true);
        var result = reader.Integer("result", 0, 60, required: true);
        var next = reader.Integer("nextService", 0, 100, required: true);
        var confirmation = reader.Integer("confirmation", 29, 250, required: true);
        if (confirmation <= test)
        {
            reader.Refuse("confirmation", ProblemTypes.InvalidValue, $"a day after 'test', {test}");
            confirmation = null;
        }

        reader.Done();
        return new DayInputs(test is { } t && result is { } r && next is { } q && confirmation is { } c
            ? ProgrammeCourse.Given(new ServiceCourse(t, t + r + q, t + ResampleAfter + r + q, c, c + q))
            : null);
    }
}
