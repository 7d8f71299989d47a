using System.Collections.Frozen;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Modified UNIFAC (Dortmund) for liquids that hold a cyclic ether and water. Original UNIFAC counts the ring oxygen as an open-chain ether: it puts tetrahydrofuran at
/// infinite dilution in water at γ = 33 (measured about 17 at 25 °C, from memory) and its azeotropic pressures with water come out 13 and 28 % low. The
/// modified method has such a group (cy-CH2O) with temperature-dependent parameters: Gmehling, Li and Schiller, Ind. Eng. Chem. Res. 32 (1993) 178,
/// doi:10.1021/ie00013a024.
/// </summary>
public static class UnifacCyclicEthers
{
    private const string Water = "7732-18-5";
    private const int CyclicEther = 43;

    private static readonly FrozenDictionary<string, IReadOnlyDictionary<int, int>> Assigned = UnifacAssignments.Read("unifac-dortmund-assignments.tsv");

    /// <summary>
    /// The model of a liquid, in the order given; null unless water and a cyclic ether are in it, every substance is assigned, and all parameters
    /// are published.
    /// </summary>
    public static Unifac? TryCreate(IReadOnlyList<Substance> substances)
    {
        var groups = new List<IReadOnlyDictionary<int, int>>(substances.Count);
        var water = false;
        var ether = false;
        foreach (var substance in substances)
        {
            if (substance.Identity.Cas is not { } cas || !Assigned.TryGetValue(cas, out var own))
            {
                return null;
            }

            water |= cas is Water;
            ether |= own.Keys.Any(static g => UnifacTable.Dortmund.Subgroups[g].MainGroup == CyclicEther);
            groups.Add(own);
        }

        return water && ether ? Unifac.TryCreate(UnifacTable.Dortmund, groups, out _) : null;
    }

    internal static IReadOnlyDictionary<int, int>? Groups(string cas) => Assigned.GetValueOrDefault(cas);
}
