using System.Runtime.CompilerServices;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.WhatIf;

/// <summary>The own rates of folded herds over the usual period, for as long as the fold holds: every change of a herd makes another fold.</summary>
internal static class KeptRates
{
    private static readonly ConditionalWeakTable<IReadOnlyList<AnimalState>, HerdOwnRates> Kept = [];

    public static HerdOwnRates Of(HerdView view, Day? from, Day? to) => from is null && to is null
        ? Kept.GetValue(view.Animals, _ => HerdOwnRates.Of(view.Animals, view.Rules, view.AsOf, view.KnownAt))
        : HerdOwnRates.Of(view.Animals, view.Rules, view.AsOf, view.KnownAt, from, to);
}
