using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Vessels;

/// <summary>Relief devices on a vessel: stated as such, or among its parts.</summary>
internal static class ReliefDevice
{
    /// <summary>Its name in the list of controls.</summary>
    public const string Control = "relief device";

    private static readonly string[] Words = ["relief", "rupture disc", "rupture disk", "bursting disc", "bursting disk", "burst disc", "burst disk", "safety valve"];

    /// <summary>True when the words name one.</summary>
    public static bool IsNamed(string text)
    {
        foreach (var word in Words)
        {
            if (text.Contains(word, StringComparison.OrdinalIgnoreCase))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>True when one is stated that opens within the vessel's rating, or is listed among the parts.</summary>
    public static bool On(Vessel vessel)
    {
        if (vessel.Relief is { } relief && relief.SetPaGauge <= (vessel.RatingPaGauge ?? GlassStrength.OfWall(vessel)))
        {
            return true;
        }

        for (var part = 0; part < vessel.Parts.Count; part++)
        {
            if (IsNamed(vessel.Parts[part].Name))
            {
                return true;
            }
        }

        return false;
    }
}
