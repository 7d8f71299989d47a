using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <content>What of a closed step goes into the model.</content>
internal sealed partial record ClosedAssessment
{
    /// <summary>The model's input for a closed step; what it cannot take is named in <paramref name="notCounted"/>.</summary>
    internal static ClosedVesselInput InputOf(StepState state, double volumeM3, bool saturated, List<string> notCounted)
    {
        var closing = state.Closing!;
        var contents = Counted(state.Contents, notCounted);
        var compression = Compression(state, volumeM3);
        return new ClosedVesselInput
        {
            VesselVolumeM3 = volumeM3,
            FillTemperatureK = closing.TemperatureK,
            FillPressurePaAbs = closing.PressurePaAbs * compression,
            SaturatedAtClosing = saturated && closing.AtAtmosphere && compression <= 1,
            Headspace = Headspace(closing.Gases),
            Contents = contents,
        };
    }

    /// <summary>What is added to a closed vessel compresses the gas already in it; never below what was shut in.</summary>
    private static double Compression(StepState state, double volumeM3)
    {
        if (ReferenceEquals(state.Contents, state.Closing!.Contents))
        {
            return 1;
        }

        var gasThen = Math.Max(0, volumeM3 - CondensedVolume(state.Closing.Contents));
        var gasNow = volumeM3 - CondensedVolume(state.Contents);
        return gasNow > 0 ? Math.Max(1, gasThen / gasNow) : 1;
    }

    private static List<ChargedSubstance> Counted(IReadOnlyList<Content> contents, List<string> notCounted)
    {
        var counted = new List<ChargedSubstance>(contents.Count);
        foreach (var first in Firsts(contents))
        {
            var name = first.Substance.Name;
            if (first.Substance.Known is not { } known)
            {
                notCounted.Add($"{name}, which is not in the catalogue");
            }
            else if (known is { PhaseAt298K: Phase.Gas, UnifacGroups: null } && IsBroughtDissolved(first, contents) && !IsInKnownSolution(known, contents))
            {
                // the pure gas's vapour pressure would overstate a solution many times over
                notCounted.Add($"{name} given off by its solution");
            }
            else if (MolOf(first, contents) is not { } mol)
            {
                notCounted.Add($"{name}, whose amount is not known");
            }
            else if (mol > 0)
            {
                counted.Add(new ChargedSubstance(known, mol));
            }
        }

        return counted;
    }

    private static bool IsBroughtDissolved(Content first, IReadOnlyList<Content> contents)
    {
        for (var index = 0; index < contents.Count; index++)
        {
            if (contents[index].MassFraction is < 1 && IsOf(first, contents[index]))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The first content of each substance, in the order of the keys.</summary>
    private static List<Content> Firsts(IReadOnlyList<Content> contents)
    {
        var firsts = new List<Content>(contents.Count);
        for (var index = 0; index < contents.Count; index++)
        {
            var at = 0;
            while (at < firsts.Count && string.CompareOrdinal(firsts[at].Substance.Key, contents[index].Substance.Key) < 0)
            {
                at++;
            }

            if (at == firsts.Count || !IsOf(firsts[at], contents[index]))
            {
                firsts.Insert(at, contents[index]);
            }
        }

        return firsts;
    }

    /// <summary>Amount in mol of a substance, summed from the least; null when one amount is not known.</summary>
    private static double? MolOf(Content substance, IReadOnlyList<Content> contents)
    {
        Span<double> amounts = stackalloc double[Math.Min(contents.Count, 64)];
        amounts = contents.Count > amounts.Length ? new double[contents.Count] : amounts;
        var count = 0;
        for (var index = 0; index < contents.Count; index++)
        {
            if (IsOf(substance, contents[index]))
            {
                if (contents[index].Mol is not { } mol)
                {
                    return null;
                }

                amounts[count++] = mol;
            }
        }

        return OrderedSum.Of(amounts[..count]);
    }

    private static bool IsOf(Content one, Content other) => string.Equals(one.Substance.Key, other.Substance.Key, StringComparison.Ordinal);

    /// <summary>True where the partial pressure over water, or a bound over other liquids, is on file.</summary>
    private static bool IsInKnownSolution(Substance gas, IReadOnlyList<Content> contents) => contents.Any(content =>
        content is { Mol: > 0, Substance.Known: { PhaseAt298K: Phase.Liquid, Involatile: false, UnifacGroups: not null } solvent }
        && (solvent.Key is Mixtures.SolutionVapour.Water ? Mixtures.SolutionVapour.HasAqueous(gas.Key) : SealedCharge.IsHeld(gas) && Mixtures.SolutionVapour.HasOrganic(gas.Key)));

    private static double CondensedVolume(IReadOnlyList<Content> contents) => FillLimits.CondensedM3(contents).M3;

    private static (Substance Gas, double Fraction)[] Headspace(IReadOnlyList<(PlanSubstance Gas, double Fraction)> gases)
    {
        var headspace = new (Substance Gas, double Fraction)[gases.Count];
        for (var index = 0; index < headspace.Length; index++)
        {
            headspace[index] = (AsSubstance(gases[index].Gas), gases[index].Fraction);
        }

        return headspace;
    }

    private static Substance AsSubstance(PlanSubstance gas) => gas.Known ?? new Substance
    {
        Identity = new Identity { Name = gas.Name },
        PhaseAt298K = Phase.Gas,
    };
}
