using System.Text.RegularExpressions;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Confinement;

/// <summary>What the words of a vessel say about its glass under outside pressure and under a change of temperature.</summary>
/// <param name="IsGlass">Glass, or not said (the more cautious).</param>
/// <param name="IsPlastic">Plastic.</param>
/// <param name="TakesVacuum">Round, cylindrical of small bore, or made for vacuum; null when the words do not say.</param>
/// <param name="IsDewar">A vacuum flask.</param>
/// <param name="Guarded">Coated, in a mesh or taped.</param>
/// <param name="ThickWalled">Thick-walled, for pressure.</param>
/// <param name="HasNeck">False for beakers, dishes and cylinders, which no pump can be put on.</param>
/// <param name="IsBorosilicate">False when the words name soda-lime or plain glass.</param>
internal sealed partial record GlassShape(bool IsGlass, bool IsPlastic, bool? TakesVacuum, bool IsDewar, bool Guarded, bool ThickWalled, bool HasNeck, bool IsBorosilicate)
{
    public static GlassShape Of(Vessel vessel)
    {
        var words = $"{vessel.Kind} {vessel.Closure}";
        var material = VesselKinds.MaterialOf(vessel.Kind);
        var dewar = Dewar().IsMatch(words);
        return new GlassShape(
            material == VesselMaterial.Glass,
            material == VesselMaterial.Plastic,
            material == VesselMaterial.Metal ? true : Weak().IsMatch(words) && !ForVacuum().IsMatch(words) ? false : Round().IsMatch(words) || ForVacuum().IsMatch(words) ? true : null,
            dewar,
            Guard().IsMatch(words),
            Thick().IsMatch(words),
            !Wide().IsMatch(words),
            !SodaLime().IsMatch(words));
    }

    [GeneratedRegex(@"\bdewar\b|\bvacuum flask\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Dewar();

    [GeneratedRegex(@"flat[ -]?bottom|conical|erlenmeyer|volumetric|beaker|bottle|\bvial\b|\bjar\b|measuring cylinder|separat(ing|ory) funnel|dropping funnel", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Weak();

    [GeneratedRegex(@"filter(ing|ation)? flask|b(ü|u|ue)chner flask|suction flask|side[ -]?arm|vacuum desiccator|hydrogenation bottle|for vacuum|vacuum[ -](rated|proof|trap)", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex ForVacuum();

    [GeneratedRegex(@"round|pear|schlenk|\btube\b|cold trap|ampoule|autoclave|necked|still", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Round();

    [GeneratedRegex(@"(?<!un)coated|mesh|netting|\btaped?\b|jacketed in metal", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Guard();

    [GeneratedRegex(@"beaker|\bdish\b|measuring cylinder|watch glass", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Wide();

    [GeneratedRegex(@"thick|pressure|heavy[ -]?wall|carius|sealed tube", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Thick();

    [GeneratedRegex(@"soda[ -]?lime|soft glass|desiccator|\bbottle\b|measuring cylinder", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex SodaLime();
}
