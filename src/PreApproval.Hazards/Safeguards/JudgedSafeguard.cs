using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Safeguards;

/// <summary>A safeguard of the plan as the list of controls judges it, once for all findings.</summary>
/// <param name="Safeguard">As typed.</param>
/// <param name="Control">The recognised control that counts; null when none does.</param>
/// <param name="StandsInFor">Controls that it stands in for when it is improvised.</param>
internal sealed record JudgedSafeguard(Safeguard Safeguard, string? Control, IReadOnlyList<string> StandsInFor)
{
    public static JudgedSafeguard Of(Safeguard safeguard) => new(
        safeguard,
        ControlList.Judge(safeguard) == Recognition.Recognised && !SafeguardStandards.Rejects(safeguard) ? ControlList.Find(safeguard.Control) : null,
        ControlList.StandsInFor(safeguard));
}
