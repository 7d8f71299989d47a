using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>What the class of the stored energy asks for, and whether the plan has it. docs/methods/stored-energy.md.</summary>
internal static class ShieldControls
{
    private const string Shield = "blast shield";

    /// <summary>The control a class asks for; null: eye protection and the closed sash, which every closed vessel has.</summary>
    public static string? For(ShieldClass shield) => shield switch
    {
        ShieldClass.Sash => null,
        ShieldClass.Shield => Shield,
        ShieldClass.Cell => ControlNeeds.FixedShield,
        ShieldClass.Engineered => ControlNeeds.EngineeredCell,
    };

    /// <summary>That control with its status.</summary>
    public static NeededControl? Needed(ShieldClass? shield, Finding finding, ScreeningContext context)
    {
        if (shield is not { } known || For(known) is not { } control)
        {
            return null;
        }

        return new NeededControl(control, ControlNeeds.Status(control, finding, context));
    }

    /// <summary>The controls of a pressure finding: a blast shield in front does for what a blast shield can hold.</summary>
    public static IReadOnlyList<NeededControl> InsteadOfShield(ShieldClass? shield, Finding finding, ScreeningContext context)
    {
        if (shield is not (ShieldClass.Cell or ShieldClass.Engineered) || ControlNeeds.Of(finding.Code) is not { } need || finding.Severity > need.From || Needed(shield, finding, context) is not { } stronger)
        {
            return [];
        }

        return [.. need.Controls.Select(control => string.Equals(control, Shield, StringComparison.Ordinal) ? stronger : new NeededControl(control, ControlNeeds.Status(control, finding, context)))];
    }

    /// <summary>
    /// A metal vessel whose rating is stated with its evidence, and a relief device on it or among the safeguards: the energy is then less likely to come out at once. It is no shield, and none is listed as present for it.
    /// </summary>
    public static bool IsCodedWithRelief(Vessel vessel, Finding finding, ScreeningContext context) =>
        VesselKinds.MaterialOf(vessel.Kind) == VesselMaterial.Metal && vessel.RatingPaGauge is > 0 && !string.IsNullOrWhiteSpace(vessel.RatingEvidence)
        && (ReliefDevice.On(vessel) || ControlNeeds.Status(ReliefDevice.Control, finding, context) == ControlStatus.Present);
}
