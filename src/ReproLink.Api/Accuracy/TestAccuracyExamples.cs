namespace ReproLink.Api.Accuracy;

/// <summary>Examples of the document.</summary>
internal static class TestAccuracyExamples
{
    public const string Json = """
        {"herd":"North Ridge","asOf":"2026-10-05","from":"2025-08-07","to":"2026-08-06",
         "firstTests":{"pregnant":161,"open":184,"recheck":12,
           "calledPregnant":{"value":0.467,"low":0.415,"high":0.519,"numerator":161,"denominator":345,"from":"herd"},
           "inconclusive":{"value":0.034,"low":0.019,"high":0.058,"numerator":12,"denominator":357,"from":"herd"}},
         "study":"karen-2015-pag-elisa",
         "inHerd":{"sharePregnant":{"value":0.508,"low":0.428,"high":0.612,"from":"computed"},
           "positivePredictive":{"value":0.982,"low":0.897,"high":0.998,"from":"computed"},"negativePredictive":{"value":0.907,"low":0.747,"high":0.969,"from":"computed"},
           "wrongOpenOf1000":{"value":49.5,"low":17.6,"high":134.1,"from":"computed"},"wrongOf1000Open":{"value":92.9,"low":31.2,"high":252.5,"from":"computed"},
           "wrongPregnantOf1000":{"value":8.3,"low":1.2,"high":48.3,"from":"computed"},"wrongOpenHere":{"value":17.1,"low":5.7,"high":46.5,"denominator":184,"from":"computed"},
           "secondSample":{"wrongOpenWithOne":{"value":49.5,"low":17.6,"high":134.1,"from":"computed"},"wrongOpenIfIndependent":{"value":4.8,"low":0.7,"high":30.2,"from":"computed"},
             "wrongOpenIfRepeated":{"value":49.5,"low":17.6,"high":134.1,"from":"computed"},"tubes":{"value":533.3,"low":480.6,"high":585.3,"from":"computed"},
             "openWaiting":{"value":483.8,"low":381.2,"high":549.5,"from":"computed"},"openHeldBack":{"value":8.2,"low":1.2,"high":43.9,"from":"computed"},
             "daysLater":14,"tubesForOne":{"value":11.9,"low":4.8,"high":30.4,"from":"computed"}}},
         "assumptions":["The herd's test errs as the study's did."],
         "studies":[{"id":"karen-2015-pag-elisa","study":"Karen et al. 2015, Anim Reprod Sci 159:31-37","test":"pregnancy-associated glycoproteins, ELISA","method":"blood",
           "specimen":"plasma","days":"28","animals":100,"sensitivity":{"value":0.902,"low":0.775,"high":0.961,"numerator":37,"denominator":41,"from":"published"},
           "specificity":{"value":0.983,"low":0.91,"high":0.997,"numerator":58,"denominator":59,"from":"published"},"counts":"only-table",
           "reference":"composite of the tests; ultrasound on day 42 settles disagreements","evidence":"seen","check":"agrees","note":"Blood of the tail vein."}],
         "cautions":["Prostaglandin (pgf) ends a pregnancy. Prescription only, on a veterinarian's order."]}
        """;

    public const string Csv = """
        id,study,doi,test,method,specimen,days,animals,sensitivity,sensitivityLow,sensitivityHigh,specificity,specificityLow,specificityHigh,inconclusive,counts,evidence,check,notUsable,positivePredictiveHere,positivePredictiveHereLow,positivePredictiveHereHigh,negativePredictiveHere,negativePredictiveHereLow,negativePredictiveHereHigh,note
        karen-2015-pag-elisa,"Karen et al. 2015, Anim Reprod Sci 159:31-37",,"pregnancy-associated glycoproteins, ELISA",blood,plasma,28,100,0.902439,0.774527,0.961428,0.983051,0.909814,0.997003,,only-table,seen,agrees,,0.982,0.897,0.998,0.907,0.747,0.969,Blood of the tail vein.
        """;
}
