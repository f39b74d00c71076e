using System.Text.Json;

namespace ReproLink.Web.Words;

/// <content>What the script at the chute says, where the network may be gone.</content>
public static partial class Say
{
    private static readonly Dictionary<string, string> ChuteSentences = new()
    {
        ["planned"] = "to draw",
        ["drawn"] = "drawn",
        ["short"] = "short",
        ["broken"] = "broken or given up",
        ["not-drawn"] = "not drawn",
        ["not-found"] = "not found",
        ["refused"] = "would not stand",
        ["no-flow"] = "no flow",
        ["out-of-order"] = "came out of order",
        ["ill"] = "ill or in treatment",
        ["gone"] = "gone",
        ["other"] = "not drawn",
        ["redraw"] = "given up for a new tube",
        ["add"] = "added to the round",
        ["progress"] = "{0} of {1} tubes settled, {2} with blood",
        ["pen"] = "Pen {0}",
        ["no-pen"] = "No pen",
        ["days"] = "{0} days post-service",
        ["no-service"] = "no service on record",
        ["waiting"] = "{0} waiting to be sent",
        ["offline"] = "No network. Go on: what you record is kept on this device and sent once.",
        ["sign-in"] = "Sign in to send what waits",
        ["refused-key"] = "Your key may look, not record. What you recorded stays on this device.",
        ["recorded"] = "{0} of {1}: {2}.",
        ["skipped"] = "Out of order: {0} still to be drawn before it. Read tag and label once more.",
        ["all-settled"] = AllSettled,
        ["new-tube"] = "new tube",
        ["new-tube-note"] = "Label the new tube by hand with {0} and today's date. Its number comes when the network is back.",
        ["named"] = "The new tube of {0} is {1}: write that on it.",
        ["not-here"] = "“{0}” is no tube and no animal of this round.",
        ["foreign"] = "{0} is not a tube of this round. Do not use it here.",
        ["no-animal"] = "Type the animal's number.",
        ["no-camera"] = "The camera cannot be used: {0}. Type the tube instead.",
        ["server-has"] = "On record",
        ["here"] = "On this device",
        ["keep-theirs"] = "Leave what is on record",
        ["keep-mine"] = "Mine counts",
        ["conflict"] = "{0}, animal {1}",
        ["keep-open"] = "Without https this browser cannot keep the page: leave it open until all is sent.",
    };

    /// <summary>The sentences as the script reads them.</summary>
    public static readonly string Chute = JsonSerializer.Serialize(ChuteSentences);
}
