using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>A flammable limit of a vapour, or why there is none.</summary>
public sealed record LimitEstimate
{
    /// <summary>Volume fraction of the combustible part of the vapour in air; null where there is none.</summary>
    public double? Fraction { get; init; }

    public Quality Quality { get; init; }

    /// <summary>Full references.</summary>
    public IReadOnlyList<string> Sources { get; init; } = [];

    public string? Because { get; init; }
}

/// <summary>What the vapour over a liquid does with air at one temperature.</summary>
public sealed record VapourFlammability
{
    public required LimitEstimate Lower { get; init; }

    public required LimitEstimate Upper { get; init; }

    /// <summary>Share of the vapour that burns, by volume; null where the composition is not known.</summary>
    public double? CombustibleShare { get; init; }

    /// <summary>Estimated limiting oxygen fraction of the combustible part in nitrogen; null where formulae are missing.</summary>
    public double? LimitingOxygenFraction { get; init; }

    /// <summary>Largest combustible share at which the vapour, inert part included, is never flammable with air; estimated.</summary>
    public double? NeverFlammableBelowShare { get; init; }

    public IReadOnlyList<string> Warnings { get; init; } = [];
}

/// <summary>
/// Flammable limits of a vapour of several components at a temperature: each limit corrected for temperature (modified Burgess–Wheeler),
/// then Le Chatelier over the combustible part. Missing limits are estimated after Jones (C, H, O, N) and marked.
/// </summary>
public static class VapourLimits
{
    /// <summary>Less than this share of the vapour is not worth a limit of its own: it changes the answer by less than the method's error.</summary>
    private const double NegligibleShare = 1e-4;

    /// <summary>Limits of a vapour. Where its composition is not known, the lowest and the highest limit of the parts bound it.</summary>
    /// <param name="parts">Substances.</param>
    /// <param name="vapour">Mole fractions of the vapour in their order; null: not known.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public static VapourFlammability At(IReadOnlyList<MixtureComponent> parts, IReadOnlyList<double>? vapour, double temperatureK)
    {
        var fuels = new List<Fuel>();
        var warnings = new List<string>();
        var unknown = new List<string>();
        for (var i = 0; i < parts.Count; i++)
        {
            var share = vapour?[i] ?? 1;
            var substance = parts[i].Substance;
            if (parts[i].MoleFraction <= 0 || share <= 0 || DoesNotBurn(substance))
            {
                continue;
            }

            if (Fuel.Of(substance, share, temperatureK) is { } fuel)
            {
                fuels.Add(fuel);
                if (fuel.Estimated)
                {
                    warnings.Add($"No flammable limits of {substance.Identity.Name} are on file: estimated from its formula (Jones).");
                }
            }
            else if (share > NegligibleShare)
            {
                unknown.Add(substance.Identity.Name);
            }
        }

        if (unknown.Count > 0)
        {
            return None($"no flammable limits of {Wording.List(unknown)} are on file, and they cannot be estimated", warnings);
        }

        if (fuels.Count == 0)
        {
            return None("nothing in the vapour is known to burn", warnings) with { CombustibleShare = 0 };
        }

        return vapour is null ? Bounds(fuels, warnings) : Mixed(fuels, warnings);
    }

    /// <summary>True for what is on file as not burning, and for salts and the like that leave no vapour.</summary>
    internal static bool DoesNotBurn(Substance substance) => substance.NonFlammable is { Value: true } || (substance.Involatile && substance.FlashPointK is null);

    private static VapourFlammability Mixed(List<Fuel> fuels, List<string> warnings)
    {
        var total = fuels.Sum(static fuel => fuel.Share);
        var lower = FlammableLimits.LeChatelier([.. fuels.Select(static fuel => (fuel.Share, fuel.Lower))]);
        var upper = FlammableLimits.LeChatelier([.. fuels.Select(static fuel => (fuel.Share, fuel.Upper))]);
        double? oxygen = fuels.TrueForAll(static fuel => fuel.OxygenPerMol is not null) ? fuels.Sum(fuel => fuel.Share / total * fuel.OxygenPerMol!.Value) : null;
        double? limiting = oxygen is { } z ? FlammableLimits.LimitingOxygen(z, lower) : null;
        double? never = limiting is { } loc ? FlammableLimits.NeverFlammableBelow(lower, loc) : null;
        if (total < never)
        {
            warnings.Add(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Only {total:P1} of the vapour burns; below about {never.Value:P1} (estimated) it is not flammable with any amount of air. The limits are those of the combustible part."));
        }

        return new VapourFlammability
        {
            Lower = Estimate(fuels, lower, mixed: true),
            Upper = Estimate(fuels, upper, mixed: true),
            CombustibleShare = total,
            LimitingOxygenFraction = limiting,
            NeverFlammableBelowShare = never,
            Warnings = warnings,
        };
    }

    private static VapourFlammability Bounds(List<Fuel> fuels, List<string> warnings)
    {
        if (fuels.Count > 1)
        {
            warnings.Add("The composition of the vapour is not known: the lowest lower and the highest upper limit of its components stand in, which bound any mixture.");
        }

        return new VapourFlammability
        {
            Lower = Estimate(fuels, fuels.Min(static fuel => fuel.Lower), mixed: false),
            Upper = Estimate(fuels, fuels.Max(static fuel => fuel.Upper), mixed: false),
            Warnings = warnings,
        };
    }

    private static LimitEstimate Estimate(List<Fuel> fuels, double fraction, bool mixed)
    {
        var worst = fuels.Max(static fuel => fuel.Quality);
        string[] own = mixed && fuels.Count > 1 ? ["le-chatelier-1891", "crowl-louvar"] : ["crowl-louvar"];
        return new LimitEstimate
        {
            Fraction = fraction,
            Quality = worst > Quality.Estimated ? worst : Quality.Estimated,
            Sources = References.Full(own.Concat(fuels.SelectMany(static fuel => fuel.Sources))),
        };
    }

    private static VapourFlammability None(string because, List<string> warnings) => new()
    {
        Lower = new LimitEstimate { Because = because },
        Upper = new LimitEstimate { Because = because },
        Warnings = warnings,
    };

    /// <summary>A combustible component with its limits at the temperature.</summary>
    private sealed record Fuel(double Share, double Lower, double Upper, double? OxygenPerMol, bool Estimated, Quality Quality, IReadOnlyList<string> Sources)
    {
        public static Fuel? Of(Substance substance, double share, double temperatureK)
        {
            var stoichiometric = Combustion.IsHalogenated(substance) ? null : Combustion.StoichiometricFraction(substance);
            var lower = substance.LowerFlammableLimit?.Governing;
            var upper = substance.UpperFlammableLimit?.Governing;
            if ((lower?.Value ?? (stoichiometric is { } c ? FlammableLimits.LowerFromStoichiometry(c) : null)) is not { } lower298
                || (upper?.Value ?? (stoichiometric is { } s ? Math.Max(FlammableLimits.UpperFromStoichiometry(s), lower298) : null)) is not { } upper298)
            {
                return null;
            }

            var heat = Combustion.Heat(substance);
            var atLower = heat is null ? FlammableLimits.LowerAt(lower298, temperatureK) : FlammableLimits.LowerAt(lower298, temperatureK, heat.JPerMol);
            var atUpper = heat is null ? FlammableLimits.UpperAt(upper298, temperatureK) : FlammableLimits.UpperAt(upper298, temperatureK, heat.JPerMol);
            if (!(atLower > 0) || !(atUpper > 0))
            {
                return null;
            }

            var estimated = lower is null || upper is null;
            string[] sources =
            [
                .. lower?.Sources ?? [],
                .. upper?.Sources ?? [],
                .. estimated ? ["jones-1938"] : Array.Empty<string>(),
                .. heat?.Sources ?? ["zabetakis-1965"],
            ];
            var quality = Vessels.VesselPoint.Worse(lower?.Quality ?? Quality.Estimated, upper?.Quality ?? Quality.Estimated);
            return new Fuel(share, atLower, atUpper, Combustion.OxygenPerMol(substance), estimated, quality, sources);
        }
    }
}
