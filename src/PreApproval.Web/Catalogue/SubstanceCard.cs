using PreApproval.Documents.Planning;
using PreApproval.Documents.Reporting;
using PreApproval.Documents.Substances;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Catalogue;

/// <summary>One published or stated number.</summary>
/// <param name="Value">In the unit of the value it belongs to.</param>
/// <param name="Quality">measured, correlated, estimated, assumed, or <see cref="SubstanceCard.StatedByTheGroup"/>.</param>
/// <param name="Source">Full references.</param>
/// <param name="Note">What a reader must know to use it; null: nothing.</param>
/// <param name="Governs">True for the one that is computed with.</param>
public sealed record StatedNumber(double Value, string Quality, IReadOnlyList<string> Source, string? Note, bool Governs);

/// <summary>One quantity of a substance with everything that is published of it.</summary>
/// <param name="Name">For instance <c>flash point</c>.</param>
/// <param name="Section">Heading it stands under: physical, fire, heat.</param>
/// <param name="Unit">°C, bar, kg/m³, vol%, kJ/mol, J/(mol K), cm³/mol or 1.</param>
/// <param name="At">Temperature in °C that it holds for; null: of none.</param>
/// <param name="Published">All numbers, the governing one first.</param>
public sealed record SubstanceValue(string Name, string Section, string Unit, double? At, IReadOnlyList<StatedNumber> Published)
{
    /// <summary>The number that governs.</summary>
    public double Value => Published[0].Value;

    public string Quality => Published[0].Quality;

    public IReadOnlyList<string> Source => Published[0].Source;
}

/// <summary>A published correlation over temperature.</summary>
/// <param name="Quantity">vapour pressure or liquid density.</param>
/// <param name="Equation">Its form in words and symbols.</param>
/// <param name="Coefficients">In the order of the form, SI units.</param>
/// <param name="FromC">Lowest temperature of validity in °C.</param>
/// <param name="ToC">Highest.</param>
/// <param name="Quality">correlated, or stated by the group.</param>
/// <param name="Source">Full references.</param>
/// <param name="Preferred">True for the one used wherever its range reaches.</param>
public sealed record SubstanceCorrelation(string Quantity, string Equation, IReadOnlyList<double> Coefficients, double FromC, double ToC, string Quality, IReadOnlyList<string> Source, bool Preferred);

/// <summary>Everything that is known of one substance, in the units people use.</summary>
public sealed class SubstanceCard
{
    /// <summary>Quality of the group's own values.</summary>
    public const string StatedByTheGroup = "stated by the group";

    public const string Physical = "physical";
    public const string Fire = "fire";
    public const string Heat = "heat";

    private const double PascalPerBar = 1e5;

    private SubstanceCard(Substance substance, Substance? catalogue, ListedGroupSubstance? own) => (Substance, Catalogue, Own) = (substance, catalogue, own);

    /// <summary>What is computed with: the catalogue's values completed by the group's own.</summary>
    public Substance Substance { get; }

    /// <summary>The entry of the catalogue; null: only in the group's own list.</summary>
    public Substance? Catalogue { get; }

    /// <summary>What the group's own list says of it; null: nothing.</summary>
    public ListedGroupSubstance? Own { get; }

    /// <summary>Every single value, in the order of the sections.</summary>
    public IReadOnlyList<SubstanceValue> Values => [.. Physicals(), .. Fires(), .. Heats()];

    public IReadOnlyList<SubstanceCorrelation> Correlations =>
    [
        .. Substance.VapourPressure.Select((c, i) => Of("vapour pressure", VapourEquation(c.Form), c.Coefficients, c.MinimumK, c.MaximumK, c.Source, i == 0)),
        .. Substance.LiquidDensity.Select((c, i) => Of("liquid density", DensityEquation(c.Form), c.Coefficients, c.MinimumK, c.MaximumK, c.Source, i == 0)),
    ];

    /// <summary>A substance of the catalogue with what the group's own list adds.</summary>
    public static SubstanceCard OfCatalogue(Substance substance, IReadOnlyList<ListedGroupSubstance> own)
    {
        ListedGroupSubstance? listed = GroupSubstanceUse.OfCatalogue(substance, own);
        return new SubstanceCard(listed is null ? substance : GroupSubstanceUse.Together(listed, substance), substance, listed);
    }

    /// <summary>A substance of the group's own list with what the catalogue knows of it.</summary>
    public static SubstanceCard OfOwn(ListedGroupSubstance own)
    {
        ArgumentNullException.ThrowIfNull(own);
        Substance? substance = own.Substance.Cas is { } cas
            ? Catalog.Default.TryFindByCas(cas, out Substance? byCas) ? byCas : null
            : own.Substance.Names.Select(static name => Catalog.Default.TryFindByName(name, out Substance? byName) ? byName : null).FirstOrDefault(static found => found is not null);
        return new SubstanceCard(GroupSubstanceUse.Together(own, substance), substance, own);
    }

    /// <summary>The catalogue's substance of an address: a CAS number or the name of one without.</summary>
    public static Substance? Find(string key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return Catalog.Default.TryFindByCas(key, out Substance? byCas) ? byCas
            : Catalog.Default.TryFindByName(key, out Substance? byName) ? byName
            : null;
    }

    /// <summary>The word of a quality; values of the group's own list and of documents carry their origin in their source.</summary>
    public static string QualityOf(Quality quality, IReadOnlyList<string> sources)
    {
        ArgumentNullException.ThrowIfNull(sources);
        return sources.Any(IsOwn) ? StatedByTheGroup : ReportWords.Of(quality);
    }

    public static IReadOnlyList<string> References(IReadOnlyList<string> sources)
    {
        ArgumentNullException.ThrowIfNull(sources);
        return [.. sources.Select(static source => IsOwn(source) ? source[(SubstanceResolution.OwnValueSource.Length + 2)..] : Catalog.Default.Reference(source))];
    }

    private static bool IsOwn(string source) => source.StartsWith(SubstanceResolution.OwnValueSource + ": ", StringComparison.Ordinal);

    private IEnumerable<SubstanceValue> Physicals() =>
    [
        .. One("melting point", Physical, "°C", Substance.MeltingPointK, Celsius),
        .. One("boiling point", Physical, "°C", Substance.BoilingPointK, Celsius),
        .. One("density", Physical, "kg/m³", Substance.DensityKgPerM3, static v => v, Celsius(Substance.DensityTemperatureK)),
        .. One("critical temperature", Physical, "°C", Substance.CriticalTemperatureK, Celsius),
        .. One("critical pressure", Physical, "bar", Substance.CriticalPressurePa, static v => v / PascalPerBar),
        .. One("critical volume", Physical, "cm³/mol", Substance.CriticalVolumeM3PerMol, static v => Math.Round(v * 1e6, 9)),
        .. One("acentric factor", Physical, "1", Substance.AcentricFactor, static v => v),
    ];

    private IEnumerable<SubstanceValue> Fires() =>
    [
        .. Several("flash point", "°C", Substance.FlashPointK, Celsius),
        .. Several("autoignition temperature", "°C", Substance.AutoignitionK, Celsius),
        .. Several("lower flammable limit", "vol%", Substance.LowerFlammableLimit, Percent),
        .. Several("upper flammable limit", "vol%", Substance.UpperFlammableLimit, Percent),
    ];

    private IEnumerable<SubstanceValue> Heats() =>
    [
        .. One("enthalpy of vaporisation", Heat, "kJ/mol", Substance.EnthalpyOfVaporisationJPerMol, Kilo),
        .. One("heat capacity, liquid", Heat, "J/(mol K)", Substance.LiquidHeatCapacityJPerMolK, static v => v, 25),
        .. One("enthalpy of formation, gas", Heat, "kJ/mol", Substance.GasEnthalpyOfFormationJPerMol, Kilo, 25),
        .. One("enthalpy of formation, liquid", Heat, "kJ/mol", Substance.LiquidEnthalpyOfFormationJPerMol, Kilo, 25),
        .. One("enthalpy of formation, solid", Heat, "kJ/mol", Substance.SolidEnthalpyOfFormationJPerMol, Kilo, 25),
    ];

    private static IEnumerable<SubstanceValue> One(string name, string section, string unit, Sourced<double>? sourced, Func<double, double> convert, double? at = null) =>
        sourced is null ? [] : [new SubstanceValue(name, section, unit, at, [Number(sourced, convert, governs: true)])];

    private static IEnumerable<SubstanceValue> Several(string name, string unit, Published? published, Func<double, double> convert) =>
        published is null
            ? []
            : [new SubstanceValue(name, Fire, unit, null,
            [
                Number(published.Governing, convert, governs: true),
                .. published.All.Where(other => !ReferenceEquals(other, published.Governing)).Select(other => Number(other, convert, governs: false)),
            ])];

    private static StatedNumber Number(Sourced<double> sourced, Func<double, double> convert, bool governs) =>
        new(convert(sourced.Value), QualityOf(sourced.Quality, sourced.Sources), References(sourced.Sources), sourced.Note, governs);

    private static SubstanceCorrelation Of(string quantity, string equation, IReadOnlyList<double> coefficients, double minimumK, double maximumK, string source, bool preferred) =>
        new(quantity, equation, coefficients, Celsius(minimumK), Celsius(maximumK), QualityOf(Quality.Correlated, [source]), References([source]), preferred);

    private static string VapourEquation(string form) => form switch
    {
        "wagner25" => "Wagner 2.5-5: ln(p/pc) = (A τ + B τ^1.5 + C τ^2.5 + D τ^5)/Tr, τ = 1 − Tr; A, B, C, D, Tc, pc",
        "wagner36" => "Wagner 3-6: ln(p/pc) = (A τ + B τ^1.5 + C τ^3 + D τ^6)/Tr, τ = 1 − Tr; A, B, C, D, Tc, pc",
        "dippr101" => "DIPPR 101: ln p = C1 + C2/T + C3 ln T + C4 T^C5",
        "antoine-ln" => "Antoine: ln p = A − B/(T + C)",
        "antoine-log10" => "Antoine: log10 p = A − B/(T + C)",
        "antoine-extended" => "Extended Antoine: log10 p = A − B/(T + C) + 0.43429 x^n + E x^8 + F x^12; A, B, C, Tc, t0, n, E, F",
        _ => form,
    };

    private static string DensityEquation(string form) => form switch
    {
        "dippr105" => "DIPPR 105: ρ = A/B^(1 + (1 − T/C)^D)",
        "vdi" => "ρ = ρc + A τ^0.35 + B τ^(2/3) + C τ + D τ^(4/3), τ = 1 − T/Tc",
        _ => form,
    };

    /// <summary>Cleared of the last bits that the subtraction leaves.</summary>
    internal static double Celsius(double kelvin) => Math.Round(kelvin - UnitTable.CelsiusZeroK, 6);

    private static double Percent(double fraction) => Math.Round(fraction * 100, 9);

    private static double Kilo(double value) => value / 1000;
}
