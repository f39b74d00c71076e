namespace ReproLink.Calendar.Facts;

/// <summary>What a test or examination says.</summary>
public enum Outcome
{
    /// <summary>Pregnant.</summary>
    Pregnant = 1,

    /// <summary>Not pregnant.</summary>
    Open = 2,

    /// <summary>Inconclusive: presumed pregnant for every drug (rule T5).</summary>
    Recheck = 3,

    /// <summary>Spoiled, short or mislabelled: changes nothing.</summary>
    Invalid = 4,
}

/// <summary>How pregnancy was looked for.</summary>
public enum TestMethod
{
    /// <summary>Blood test.</summary>
    Blood = 1,

    /// <summary>Milk test.</summary>
    Milk = 2,

    /// <summary>Ultrasound examination.</summary>
    Ultrasound = 3,

    /// <summary>Palpation.</summary>
    Palpation = 4,
}

/// <summary>Agents by active class. Never a product, never a dose.</summary>
public enum Agent
{
    /// <summary>Gonadotrophin-releasing hormone.</summary>
    Gnrh = 1,

    /// <summary>Prostaglandin F2alpha. Given to a pregnant cow it ends the pregnancy.</summary>
    Pgf = 2,

    /// <summary>Progesterone insert placed.</summary>
    InsertIn = 3,

    /// <summary>Progesterone insert removed.</summary>
    InsertOut = 4,
}

/// <summary>Questions about the words above.</summary>
public static class FactWords
{
    /// <summary>Whether the method is an examination by a person rather than a test of a sample.</summary>
    public static bool IsExamination(this TestMethod method) => method is TestMethod.Ultrasound or TestMethod.Palpation;
}
