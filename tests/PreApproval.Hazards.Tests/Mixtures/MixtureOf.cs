using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Tests.Vessels;

namespace PreApproval.Hazards.Tests.Mixtures;

internal static class MixtureOf
{
    public const double ZeroC = 273.15;

    public static Substance ByName(string name) => ClosedVesselTests.ByName(name);

    /// <summary>By mole fractions.</summary>
    public static LiquidMixture Mol(params (string Name, double X)[] parts) => new([.. parts.Select(static p => new MixtureComponent(ByName(p.Name), p.X))]);

    /// <summary>Two substances by weight percent of the first.</summary>
    public static LiquidMixture Weight(Substance first, double percent, Substance second) => new(
    [
        new MixtureComponent(first, percent / first.Identity.MolarMassKgPerMol!.Value),
        new MixtureComponent(second, (100 - percent) / second.Identity.MolarMassKgPerMol!.Value),
    ]);

    /// <summary>The same substance with the groups of another: between the two every activity coefficient is 1.</summary>
    public static Substance Ideal(Substance substance, Substance like) => substance with { UnifacGroups = like.UnifacGroups };

    public static Substance WithFlashPoint(Substance substance, double celsius)
    {
        var value = new Sourced<double>(celsius + ZeroC, Quality.Measured, ["test"]);
        return substance with { FlashPointK = new Published(value, [value]) };
    }
}
