using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Substances;

/// <summary>A substance while its data files are being read.</summary>
internal sealed class SubstanceDraft
{
    public required Identity Identity { get; init; }

    public required Phase Phase { get; init; }

    public required bool Involatile { get; init; }

    public Dictionary<string, List<(Sourced<double> Value, bool Governs)>> Values { get; } = new(StringComparer.Ordinal);

    public List<(int Preference, VapourPressureCorrelation Correlation)> VapourPressure { get; } = [];

    public List<(int Preference, LiquidDensityCorrelation Correlation)> LiquidDensity { get; } = [];

    public double DensityTemperatureK { get; set; } = 298.15;

    public Sourced<IReadOnlyDictionary<int, int>>? Groups { get; set; }

    public HealthDraft Health { get; } = new();

    public List<double> BoilingPointsK => [.. Values.GetValueOrDefault(Quantity.BoilingPoint, []).Select(v => v.Value.Value)];

    public Substance Build()
    {
        var burns = Single(Quantity.NonFlammable);
        return new Substance
        {
            Identity = Identity,
            PhaseAt298K = Phase,
            Involatile = Involatile,
            MeltingPointK = Single(Quantity.MeltingPoint),
            BoilingPointK = Single(Quantity.BoilingPoint),
            CriticalTemperatureK = Single(Quantity.CriticalTemperature),
            CriticalPressurePa = Single(Quantity.CriticalPressure),
            AcentricFactor = Single(Quantity.AcentricFactor),
            CriticalVolumeM3PerMol = Single(Quantity.CriticalVolume),
            LiquidHeatCapacityJPerMolK = Single(Quantity.LiquidHeatCapacity),
            EnthalpyOfVaporisationJPerMol = Single(Quantity.EnthalpyOfVaporisation),
            GasEnthalpyOfFormationJPerMol = Single(Quantity.GasEnthalpyOfFormation),
            LiquidEnthalpyOfFormationJPerMol = Single(Quantity.LiquidEnthalpyOfFormation),
            SolidEnthalpyOfFormationJPerMol = Single(Quantity.SolidEnthalpyOfFormation),
            DensityKgPerM3 = Single(Quantity.Density),
            DensityTemperatureK = DensityTemperatureK,
            VapourPressure = [.. VapourPressure.OrderBy(c => c.Preference).Select(c => c.Correlation)],
            LiquidDensity = [.. LiquidDensity.OrderBy(c => c.Preference).Select(c => c.Correlation)],
            FlashPointK = Cautious(Quantity.FlashPoint, highest: false),
            AutoignitionK = Cautious(Quantity.Autoignition, highest: false),
            LowerFlammableLimit = Cautious(Quantity.LowerLimit, highest: false),
            UpperFlammableLimit = Cautious(Quantity.UpperLimit, highest: true),
            NonFlammable = burns is null ? null : new Sourced<bool>(burns.Value != 0, burns.Quality, burns.Sources),
            UnifacGroups = Groups,
            HazardStatements = Health.Statements,
            ExposureLimits = Health.BuildLimits(),
            Idlh = Health.Idlh,
            Carcinogen = Health.Carcinogen,
        };
    }

    private Sourced<double>? Single(string quantity)
    {
        var all = Values.GetValueOrDefault(quantity, []);
        return all.Where(v => v.Governs).Select(v => v.Value).OrderBy(v => v.Quality).FirstOrDefault();
    }

    private Published? Cautious(string quantity, bool highest)
    {
        var all = Values.GetValueOrDefault(quantity, []);
        var governing = all.Where(v => v.Governs).Select(v => v.Value).ToList();
        if (governing.Count == 0)
        {
            return null;
        }

        var value = highest ? governing.MaxBy(v => v.Value)! : governing.MinBy(v => v.Value)!;
        return new Published(value, [.. all.Select(v => v.Value)]);
    }
}

/// <summary>Names of the quantities in the data files, with their units.</summary>
internal static class Quantity
{
    public const string MeltingPoint = "melting point";
    public const string BoilingPoint = "boiling point";
    public const string CriticalTemperature = "critical temperature";
    public const string CriticalPressure = "critical pressure";
    public const string AcentricFactor = "acentric factor";
    public const string CriticalVolume = "critical volume";
    public const string LiquidHeatCapacity = "heat capacity, liquid";
    public const string EnthalpyOfVaporisation = "enthalpy of vaporisation";
    public const string GasEnthalpyOfFormation = "enthalpy of formation, gas";
    public const string LiquidEnthalpyOfFormation = "enthalpy of formation, liquid";
    public const string SolidEnthalpyOfFormation = "enthalpy of formation, solid";
    public const string Density = "density";
    public const string FlashPoint = "flash point";
    public const string Autoignition = "autoignition temperature";
    public const string LowerLimit = "lower flammable limit";
    public const string UpperLimit = "upper flammable limit";
    public const string NonFlammable = "non-flammable";

    /// <summary>The one unit in which each quantity may be written.</summary>
    public static readonly IReadOnlyDictionary<string, string> Units = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        [MeltingPoint] = "K",
        [BoilingPoint] = "K",
        [CriticalTemperature] = "K",
        [CriticalPressure] = "Pa",
        [AcentricFactor] = "1",
        [CriticalVolume] = "m3/mol",
        [LiquidHeatCapacity] = "J/(mol K)",
        [EnthalpyOfVaporisation] = "J/mol",
        [GasEnthalpyOfFormation] = "J/mol",
        [LiquidEnthalpyOfFormation] = "J/mol",
        [SolidEnthalpyOfFormation] = "J/mol",
        [Density] = "kg/m3",
        [FlashPoint] = "K",
        [Autoignition] = "K",
        [LowerLimit] = "1",
        [UpperLimit] = "1",
        [NonFlammable] = "1",
    };
}
