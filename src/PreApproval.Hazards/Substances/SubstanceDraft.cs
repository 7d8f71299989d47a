using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Substances;

/// <summary>A value as read, with the place it was read from.</summary>
internal sealed record DraftValue(Sourced<double> Value, bool Governs, double TemperatureK, TsvRow Row);

/// <summary>A substance while its data files are being read. Correlations are kept in the order of their preference.</summary>
internal sealed class SubstanceDraft
{
    private readonly List<DraftValue>?[] _values = new List<DraftValue>?[Quantities.Count];
    private readonly List<int> _vapourPressurePreferences = [];
    private readonly List<VapourPressureCorrelation> _vapourPressure = [];
    private readonly List<int> _liquidDensityPreferences = [];
    private readonly List<LiquidDensityCorrelation> _liquidDensity = [];

    public required Identity Identity { get; init; }

    public required Phase Phase { get; init; }

    public required bool Involatile { get; init; }

    /// <summary>The line among the identities.</summary>
    public required TsvRow Row { get; init; }

    public Sourced<IReadOnlyDictionary<int, int>>? Groups { get; set; }

    public HealthDraft Health { get; } = new();

    /// <summary>Every value given for a quantity.</summary>
    public IReadOnlyList<DraftValue> All(Quantity quantity) => _values[(int)quantity] is { } list ? list : [];

    public void Add(Quantity quantity, DraftValue value) => (_values[(int)quantity] ??= []).Add(value);

    public void Add(int preference, VapourPressureCorrelation correlation) => Insert(_vapourPressurePreferences, _vapourPressure, preference, correlation);

    public void Add(int preference, LiquidDensityCorrelation correlation) => Insert(_liquidDensityPreferences, _liquidDensity, preference, correlation);

    public Substance Build()
    {
        var burns = Best(Quantity.NonFlammable)?.Value;
        var density = Best(Quantity.Density);
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
            DensityKgPerM3 = density?.Value,
            DensityTemperatureK = density?.TemperatureK ?? 298.15,
            VapourPressure = _vapourPressure.ToArray(),
            LiquidDensity = _liquidDensity.ToArray(),
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

    /// <summary>The governing value of the best quality; the first read where several are as good.</summary>
    public DraftValue? Best(Quantity quantity)
    {
        DraftValue? best = null;
        foreach (var value in All(quantity))
        {
            if (value.Governs && (best is null || value.Value.Quality < best.Value.Quality))
            {
                best = value;
            }
        }

        return best;
    }

    /// <summary>The lowest (or highest) of the values that may govern.</summary>
    public DraftValue? MostCautious(Quantity quantity, bool highest)
    {
        DraftValue? cautious = null;
        foreach (var value in All(quantity))
        {
            if (value.Governs && (cautious is null || (highest ? value.Value.Value > cautious.Value.Value : value.Value.Value < cautious.Value.Value)))
            {
                cautious = value;
            }
        }

        return cautious;
    }

    private static void Insert<T>(List<int> preferences, List<T> correlations, int preference, T correlation)
    {
        var at = preferences.Count;
        while (at > 0 && preferences[at - 1] > preference)
        {
            at--;
        }

        preferences.Insert(at, preference);
        correlations.Insert(at, correlation);
    }

    private Sourced<double>? Single(Quantity quantity) => Best(quantity)?.Value;

    private Published? Cautious(Quantity quantity, bool highest)
    {
        if (MostCautious(quantity, highest) is not { } governing)
        {
            return null;
        }

        var all = All(quantity);
        var published = new Sourced<double>[all.Count];
        for (var i = 0; i < published.Length; i++)
        {
            published[i] = all[i].Value;
        }

        return new Published(governing.Value, published);
    }
}
