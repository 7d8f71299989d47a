namespace PreApproval.Hazards.Vessels;

/// <summary>Which of the models answers for a closed vessel at one temperature, and why. Rules: docs/methods/closed-vessel.md.</summary>
internal static class GoverningModel
{
    public static (ModelState Governing, string Because) Of(RaoultAnswer raoult, ModelState equation, ModelState psrk, ModelState bound, VesselPoint point)
    {
        if (raoult.State.Phase == VesselPhase.LiquidFull)
        {
            return (raoult.State, "the liquid fills the vessel");
        }

        var dissolving = PsrkMayGovern(raoult, point) && (psrk.PressurePaAbs is not null || psrk.Phase == VesselPhase.LiquidFull);
        if (dissolving && point.Charge.Psrk.DissolvesGas)
        {
            return (psrk, "PSRK: a gas dissolves in the liquids, and all its group parameters are on file");
        }

        if (point.Charge.Held.Count > 0 || point.Unknown.Count > 0 || point.HeldPastCritical.Count > 0)
        {
            return (raoult.State, raoult.State.Because!);
        }

        // the bound would count such a gas twice, as gas and in the room its liquid took
        if (equation.PressurePaAbs is not null && point.AllPastCritical && EquationOfStateVessel.PengRobinsonMayGovern(point))
        {
            return (equation, "Peng–Robinson: everything volatile in the vessel is above its critical temperature");
        }

        if (dissolving && !EquationOfStateVessel.PengRobinsonMayGovern(point))
        {
            return (psrk, "PSRK: a content is above its critical temperature, where modified Raoult has no vapour pressure for it");
        }

        var (other, because) = WithoutEquation(raoult, bound, point);
        return equation is { PressurePaAbs: { } pressure, Phase: not VesselPhase.LiquidFull } && EquationOfStateVessel.PengRobinsonMayGovern(point) && !(other.PressurePaAbs >= pressure)
            ? (equation, "the highest of the credible models: Peng–Robinson, for hydrocarbons, permanent gases and near-critical carbon dioxide")
            : (other, because);
    }

    // Where modified Raoult has no number, or adds the pure pressure of a gas that dissolves; published data on a solution come first.
    public static bool PsrkMayGovern(RaoultAnswer raoult, VesselPoint point) =>
        point.Charge.Dissolved.Length == 0 && (point.PastCritical.Count > 0 || point.Charge.Held.Count > 0 || point.Charge.HasGasApart)
        && raoult.State.Phase != VesselPhase.LiquidFull && point.Unknown.Count == 0
        && point.Charge.Psrk is { Because: null, IsCredible: true } psrk && (psrk.DissolvesGas || point.PastCritical.Count > 0);

    private static (ModelState Governing, string Because) WithoutEquation(RaoultAnswer raoult, ModelState bound, VesselPoint point)
    {
        if (raoult.State.PressurePaAbs is null)
        {
            return (bound, $"the bound stands in for modified Raoult: {raoult.State.Because}");
        }

        if (!raoult.OneLiquid)
        {
            return (bound, "the liquids do not mix (stability test of the activity model), so each adds its own vapour pressure");
        }

        return (raoult.State, point.Charge switch
        {
            { Mixing.Length: 0, Apart.Length: 0 } => "nothing volatile is in the vessel: the gas alone counts",
            _ when raoult.State.Model == VesselModel.ModifiedUnifac => "modified Raoult with modified UNIFAC: original UNIFAC misjudges cyclic ethers with water",
            { Apart.Length: > 0, Mixing.Length: > 0 } => "modified Raoult for the liquids with group parameters, and the full vapour pressure of each other volatile",
            _ => "modified Raoult with all parameters on file",
        });
    }
}
