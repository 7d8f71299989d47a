using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>
/// What the heat of the reactions of a step, declared or in a closed vessel looked up, can do to its contents: adiabatic rise ΔT = −ΔH·n/(Σ n·cp) and the maximum temperature of the
/// synthesis reaction MTSR = T + X·ΔT, with X the largest share of unreacted reagent (F. Stoessel, Thermal Safety of Chemical
/// Processes, 2nd ed., Wiley-VCH 2020, ch. 3). The heat capacity is that of the liquids whose value is on file; what has none is left
/// out, which makes the rise larger, and is named.
/// </summary>
/// <param name="HeatJ">Heat set free in J; above 0.</param>
/// <param name="HeatCapacityJPerK">Heat capacity of the contents in J/K; null when too little of it is known.</param>
/// <param name="AdiabaticRiseK">Adiabatic rise in K; null when not computed.</param>
/// <param name="Accumulation">Share of unreacted reagent counted, 0 to 1.</param>
/// <param name="AccumulationDeclared">False: nothing is declared, so all of it counts (X = 1).</param>
/// <param name="MtsrK">Maximum temperature of the synthesis reaction in K; null when not computed.</param>
/// <param name="LeftOut">Substances without a heat capacity on file, in the order of the contents.</param>
/// <param name="NotComputed">Why there is no number; null when there is one.</param>
/// <param name="Quality">Of the heat capacity.</param>
/// <param name="Sources">Keys of the heat capacities used.</param>
public sealed record ReactionHeat(
    double? HeatJ,
    double? HeatCapacityJPerK,
    double? AdiabaticRiseK,
    double Accumulation,
    bool AccumulationDeclared,
    double? MtsrK,
    IReadOnlyList<string> LeftOut,
    string? NotComputed,
    Quality Quality,
    IReadOnlyList<string> Sources)
{
    /// <summary>Share of the mass whose heat capacity must be known for a number to mean anything. Convention, no source.</summary>
    private const double LeastKnownShare = 0.5;

    /// <summary>Where a heat is not stated but looked up, where from, in words; empty where all are stated.</summary>
    public IReadOnlyList<string> LookedUp { get; init; } = [];

    /// <summary>The same with what says that heats were looked up.</summary>
    internal ReactionHeat With(IReadOnlyList<Energy.FoundHeat> found) => found.Count == 0 ? this : this with
    {
        LookedUp = [.. found.Select(static one => one.Model).Distinct(StringComparer.Ordinal)],
        Quality = found.Max(static one => one.Quality) is var worst && worst > Quality ? worst : Quality,
        Sources = [.. Sources.Concat(found.SelectMany(static one => one.Sources)).Distinct(StringComparer.Ordinal)],
    };

    /// <summary>
    /// Of the declared reactions of a step; null when none declares that it gives heat. Above the boiling point of an open vessel the
    /// solvent boils first: MTSR is what the rise would reach without that.
    /// </summary>
    /// <param name="heats">Declared heat in J/mol (exothermic negative), amount turned over in mol, declared accumulation.</param>
    /// <param name="contents">What shares the vessel, before the reaction.</param>
    /// <param name="temperatureK">Set temperature in K.</param>
    internal static ReactionHeat? Of(IReadOnlyList<(double HeatJPerMol, double? Mol, double? Accumulation)> heats, IReadOnlyList<Content> contents, double temperatureK)
    {
        if (!heats.Any(static heat => heat.HeatJPerMol < 0))
        {
            return null;
        }

        var declared = heats.Where(static heat => heat.HeatJPerMol < 0).All(static heat => heat.Accumulation is not null);
        var joule = heats.Aggregate((double?)0, static (sum, heat) => sum - (heat.HeatJPerMol * heat.Mol));
        var stored = heats.Aggregate((double?)0, static (sum, heat) => sum - (heat.HeatJPerMol * heat.Mol * (heat.HeatJPerMol < 0 ? heat.Accumulation ?? 1 : 1)));
        var (capacity, knownKg, kg, leftOut, quality, sources) = Capacity(contents, temperatureK);
        var why = joule is null ? "the amount turned over is not known"
            : capacity <= 0 || kg is null ? "the heat capacity of the contents is not on file"
            : knownKg < LeastKnownShare * kg ? "the heat capacity of more than half of the mass is not on file"
            : null;
        if (why is not null)
        {
            return new ReactionHeat(joule, null, null, 1, declared, null, leftOut, why, Quality.Assumed, sources);
        }

        // heats that cancel leave nothing to rise
        var rise = Math.Max(0, joule!.Value / capacity);
        var mtsr = temperatureK + Math.Max(0, stored!.Value / capacity);
        var share = joule.Value > 0 ? Math.Clamp(stored.Value / joule.Value, 0, 1) : 1;
        return new ReactionHeat(joule, capacity, rise, share, declared, mtsr, leftOut, null, quality, sources);
    }

    private static (double JPerK, double KnownKg, double? Kg, IReadOnlyList<string> LeftOut, Quality Quality, IReadOnlyList<string> Sources) Capacity(IReadOnlyList<Content> contents, double temperatureK)
    {
        double capacity = 0;
        double knownKg = 0;
        double? kg = 0;
        var quality = Quality.Measured;
        var leftOut = new List<string>();
        var sources = new List<string>();
        foreach (var content in contents)
        {
            if (content.Mol is <= 0)
            {
                continue;
            }

            var mass = content.Mol * content.Substance.Known?.Identity.MolarMassKgPerMol;
            kg += mass;
            if (content is { Mol: { } mol, Substance.Known: { PhaseAt298K: Phase.Liquid } known } && mass is { } weighed && LiquidHeatCapacity.JPerMolK(known, temperatureK) is { } molar)
            {
                capacity += mol * molar.Value;
                knownKg += weighed;
                quality = molar.Quality > quality ? molar.Quality : quality;
                sources.AddRange(molar.Sources.Where(source => !sources.Contains(source, StringComparer.Ordinal)));
            }
            else if (!leftOut.Contains(content.Substance.Name, StringComparer.Ordinal))
            {
                leftOut.Add(content.Substance.Name);
            }
        }

        return (capacity, knownKg, kg, leftOut, quality, sources);
    }
}
