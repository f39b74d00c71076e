namespace ReproLink.Records;

/// <summary>How a store is doing, for whoever watches over it.</summary>
/// <param name="WritesWaiting">Writes that wait for the writer now.</param>
/// <param name="Transactions">Transactions since it was opened.</param>
/// <param name="Writes">Writes answered since then; divided by the transactions, the size of a batch.</param>
/// <param name="Folds">How often a herd was folded since then.</param>
/// <param name="FactsInMemory">Facts kept in memory now.</param>
/// <param name="HeldOpen">Results that wait for a person, over all herds.</param>
/// <param name="FileBytes">Size of the database file, without its log.</param>
public sealed record StoreMeasures(
    int WritesWaiting, long Transactions, long Writes, long Folds, long FactsInMemory, long HeldOpen, long FileBytes);
