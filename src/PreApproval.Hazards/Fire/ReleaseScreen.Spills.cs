using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;
namespace PreApproval.Hazards.Fire;

/// <content>A spill of an open vessel.</content>
internal static partial class ReleaseScreen
{
    /// <summary>An open vessel that spills: only what would bring a room to the immediately dangerous concentration is worth a finding.</summary>
    private static Finding? Spilled(StepState[] states, ScreeningContext context)
    {
        var room = RoomOf(context);
        var worst = AboveIdlh(states, room);
        if (worst.Count == 0)
        {
            return null;
        }

        var exposures = Worst(worst);
        var state = worst[0].State;
        var finding = Breathed("toxicity.spill", state, StepIds.Of(worst, static one => one.State), exposures, $"If “{state.Vessel.Id}” spills and evaporates", context);
        return finding with
        {
            Severity = context.Plan.Place is { IsHood: true } ? Severity.Notice : Severity.Caution,
            Evidence = [.. finding.Evidence, .. exposures.SelectMany(exposure => PoolEvidence(exposure, context))],
        };
    }

    /// <summary>What a spill of the vessel brings above an immediately dangerous concentration, each substance once a step.</summary>
    private static List<(StepState State, Exposure Exposure)> AboveIdlh(StepState[] states, double roomM3)
    {
        var above = new List<(StepState State, Exposure Exposure)>();
        foreach (var state in states)
        {
            for (var index = 0; index < state.Contents.Count; index++)
            {
                var substance = state.Contents[index].Substance;
                if (MaySpill(state.Contents[index]) && !IsTold(above, state, substance.Key)
                    && SpiltMol(state, substance) is var mol && Exposure.PpmIn(roomM3, substance, mol) >= substance.Known!.Idlh!.Ppm)
                {
                    above.Add((state, new Exposure(substance, mol, roomM3)));
                }
            }
        }

        return above;
    }

    /// <summary>Of each substance the highest exposure, in the order of the keys.</summary>
    private static Exposure[] Worst(List<(StepState State, Exposure Exposure)> all)
    {
        var worst = new List<Exposure>();
        foreach (var (_, exposure) in all)
        {
            var at = 0;
            while (at < worst.Count && string.CompareOrdinal(worst[at].Substance.Key, exposure.Substance.Key) < 0)
            {
                at++;
            }

            if (at == worst.Count || !string.Equals(worst[at].Substance.Key, exposure.Substance.Key, StringComparison.Ordinal))
            {
                worst.Insert(at, exposure);
            }
            else if (exposure.Ppm > worst[at].Ppm)
            {
                worst[at] = exposure;
            }
        }

        return [.. worst];
    }

    private static bool IsTold(List<(StepState State, Exposure Exposure)> above, StepState state, string key)
    {
        for (var index = above.Count - 1; index >= 0 && ReferenceEquals(above[index].State, state); index--)
        {
            if (string.Equals(above[index].Exposure.Substance.Key, key, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static bool MaySpill(Content content) => content is { Spent: false, Mol: null or > 0, Substance.Known: { Involatile: false, PhaseAt298K: Phase.Liquid, Idlh: not null } };

    private static double SpiltMol(StepState state, PlanSubstance substance)
    {
        Span<double> mol = stackalloc double[Math.Min(state.Contents.Count, 64)];
        mol = state.Contents.Count > mol.Length ? new double[state.Contents.Count] : mol;
        var count = 0;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            var content = state.Contents[index];
            if (MaySpill(content) && string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal))
            {
                mol[count++] = content.Mol ?? double.PositiveInfinity;
            }
        }

        return OrderedSum.Of(mol[..count]);
    }
}
