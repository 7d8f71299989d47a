using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Exposure;

/// <summary>Area in m² through which an open vessel gives off vapour. All sizes are common practice, no source.</summary>
internal static class OpenSurface
{
    /// <summary>Neck of a flask or bottle, 24 mm wide.</summary>
    private const double NeckM2 = 4.5e-4;

    /// <summary>Mouth of a small vial, 12 mm wide.</summary>
    private const double VialM2 = 1.1e-4;

    /// <summary>Volume in m³ up to which a vessel has the mouth of a vial.</summary>
    private const double SmallM3 = 20e-6;

    /// <summary>Fractions and column head of a chromatography.</summary>
    private const double ChromatographyM2 = 1e-2;

    /// <summary>Filter funnel of 90 mm.</summary>
    private const double FilterM2 = 6e-3;

    private static readonly string[] WideWords = ["beaker", "dish", "crystallis", "tray", "bucket", "basin", "petri", "mortar", "bath"];

    /// <summary>The area at a step; null when the vessel gives nothing off: closed, vented through a bubbler, needle or balloon, under a condenser, or on a pump.</summary>
    public static double? M2(StepState state)
    {
        if (state.Sealed || state.Vent is not null)
        {
            return null;
        }

        return state.Step.Action switch
        {
            StepAction.Reflux or StepAction.Distil or StepAction.Concentrate or StepAction.Evacuate or StepAction.Degas or StepAction.Pressurise or StepAction.Seal or StepAction.Purge => null,
            StepAction.Chromatograph => ChromatographyM2,
            StepAction.Filter => FilterM2,
            StepAction.Charge or StepAction.Add or StepAction.Open or StepAction.Vent or StepAction.Heat or StepAction.Cool or StepAction.Hold or StepAction.Stir or StepAction.Transfer or StepAction.Quench
                or StepAction.Extract or StepAction.Store or StepAction.Discard or StepAction.Irradiate or StepAction.Grind or StepAction.Dry or StepAction.Wash => Mouth(state.Vessel),
        };
    }

    private static double Mouth(Vessel vessel)
    {
        if (Array.Exists(WideWords, word => vessel.Kind.Contains(word, StringComparison.OrdinalIgnoreCase)))
        {
            // a beaker 1.4 times as high as wide: V = 1.4 π/4 d³
            var volume = vessel.VolumeM3 ?? 250e-6;
            var diameter = Math.Cbrt(volume / (1.4 * Math.PI / 4));
            return Math.PI / 4 * diameter * diameter;
        }

        return vessel.VolumeM3 <= SmallM3 ? VialM2 : NeckM2;
    }
}
