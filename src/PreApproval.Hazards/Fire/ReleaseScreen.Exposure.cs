using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <content>What people breathe in a room after a release.</content>
internal static partial class ReleaseScreen
{
    /// <summary>A substance in the air of a room, and the strictest limits on file. A short release is held against the short-term limit or the ceiling first.</summary>
    private sealed record Exposure
    {
        public Exposure(PlanSubstance substance, double mol, double roomM3)
        {
            Substance = substance;
            Mol = mol;
            Ppm = PpmIn(roomM3, substance, mol);
            Danger = substance.Known?.Idlh?.Ppm;
            Limit = substance.Known?.ExposureLimits is { } limits ? InPpm(limits.StrictestStel) ?? InPpm(limits.StrictestCeiling) ?? InPpm(limits.StrictestTwa) : null;
        }

        public PlanSubstance Substance { get; }

        public double Mol { get; }

        public double Ppm { get; }

        public double? Danger { get; }

        public ExposureLimit? Limit { get; }

        public bool AboveIdlh => Ppm >= Danger;

        public bool AboveLimit => Ppm > Limit?.Ppm;

        /// <summary>What an amount in mol brings into the air of a room in m³, at most saturated, in ppm.</summary>
        public static double PpmIn(double roomM3, PlanSubstance substance, double mol)
        {
            var saturated = substance.Known is { PhaseAt298K: Phase.Liquid } known && VapourPressure.At(known, RoomK) is { Volatility: Volatility.Condensable } pressure ? pressure.Pascal / AtmospherePa : 1;
            return Math.Min(ReleaseLaw.FractionIn(roomM3, ReleaseLaw.VapourM3(mol)), saturated) * 1e6;
        }

        private static ExposureLimit? InPpm(ExposureLimit? limit) => limit?.Ppm is null ? null : limit;
    }
}
