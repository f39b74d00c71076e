using System.Globalization;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.WhatIf;

/// <summary>Numbers within limits.</summary>
internal static class Shares
{
    /// <summary>A number from <paramref name="least"/> to <paramref name="most"/>; null when absent or refused.</summary>
    public static double? Number(ObjectReader reader, string name, double least, double most)
    {
        if (reader.Number(name) is not { } number)
        {
            return null;
        }

        if (number >= least && number <= most)
        {
            return number;
        }

        reader.Refuse(name, ProblemTypes.InvalidValue, string.Create(CultureInfo.InvariantCulture, $"a number from {least} to {most}"));
        return null;
    }
}
