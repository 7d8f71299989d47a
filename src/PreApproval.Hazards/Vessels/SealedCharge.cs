using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>One content with the part it plays in the vapour space.</summary>
internal readonly record struct ChargedPart(Substance Substance, double Mol);

/// <summary>
/// What was shut in, sorted once by the part it plays: liquids that share mole fractions, volatiles that stand apart (no UNIFAC
/// groups, or a solid with a vapour pressure), condensed matter that only takes room, and gas.
/// </summary>
internal sealed partial class SealedCharge
{
    internal const double NegligiblePa = 1000;

    // Henry's law of a sparingly soluble gas holds up to about this ratio of its moles to those of the water.
    private const double DiluteRatio = 0.02;

    // A solid that melts below this is handled as the liquid it soon becomes (tert-butanol, phenol).
    private const double MeltsEarlyK = 323.15;

    // Gases held by a liquid through reaction or strong solvation: their own vapour pressure says nothing about the solution.
    private static readonly HashSet<string> HeldBySolvents = new(StringComparer.Ordinal)
    {
        "7664-41-7", "7647-01-0", "10035-10-6", "10034-85-2", "7664-39-3", "50-00-0", "7446-09-5", "74-89-5", "124-40-3", "75-50-3", "75-04-7", "7637-07-2",
    };

    private static readonly ModelState NotNeeded = new() { Model = VesselModel.PengRobinson };
    private static readonly EquationComponent[] NoConstants = [];
    private static readonly string[] CyclicEtherSources = ["gmehling1993"];

    private static readonly List<ChargedPart> NoParts = [];
    private static readonly List<string> NoKeys = [];

    // most charges need no word
    private List<string>? _warnings;
    private List<string>? _missing;
    private List<ChargedPart>? _chargedGases;
    private EquationComponent[]? _components;
    private PsrkCharge? _psrk;
    private bool? _equationMayEverGovern;
    private VesselPoint? _point;
    private Unifac.UnifacAtTemperature? _activities;

    /// <param name="input">What is shut in.</param>
    /// <param name="like">A charge whose activity model and work space serve again where the same liquids are shut in; null: none. Not shared between threads.</param>
    public SealedCharge(ClosedVesselInput input, SealedCharge? like = null)
    {
        Input = input;
        VolumeM3 = input.VesselVolumeM3;
        var mixing = new List<ChargedPart>();
        var apart = new List<ChargedPart>();
        var room = new List<ChargedPart>();
        SortAll(input, mixing, apart, room);
        ChargedPart[] dissolved = [.. TakeDissolved(mixing, apart, room)];

        // One liquid alone needs no activity model.
        if (mixing.Count == 0 && apart.FindIndex(IsNoSolid) is >= 0 and var only && apart.FindLastIndex(IsNoSolid) == only)
        {
            mixing.Add(apart[only]);
            apart.RemoveAt(only);
        }

        Mixing = [.. mixing];
        Apart = [.. apart];
        Room = [.. room];
        TakesRoomAsLiquid = room.Exists(static part => part.Substance.PhaseAt298K == Phase.Liquid);
        Dissolved = dissolved;
        DissolvedM3PerMol = dissolved.Length == 0 ? [] : Array.ConvertAll(dissolved, part => SolutionDensities.SoluteM3PerMol(this, part));
        if (like is not null && Mixing.Length > 1 && HasSameLiquids(like))
        {
            (Model, Gaps, CyclicEthers, _activities) = (like.Model, like.Gaps, like.CyclicEthers, like._activities);
            (_among, _activitiesAmong, _gapsAmong) = (like._among, like._activitiesAmong, like._gapsAmong);
        }
        else if (Mixing.Length > 1)
        {
            Model = Unifac.TryCreate(Array.ConvertAll(Mixing, static part => part.Substance.UnifacGroups!.Value), out var gaps);
            Gaps = gaps;
            CyclicEthers = Dissolved.Length > 0 ? null : UnifacCyclicEthers.TryCreate(Array.ConvertAll(Mixing, static part => part.Substance));
        }

        Held = Mixing.Length + Apart.Length > 1 ? HeldOf(Model is null ? Mixing : [], Apart) : [];

        if (like?._search is { } search && search.Mixing.Length == Mixing.Length && search.Apart.Length == Apart.Length)
        {
            // its owner makes another when it is asked again
            (_search, like._search) = (search, null);
            search.MoveTo(this);
        }

        HasGasApart = HasGas(Apart);
        LowestCriticalK = Math.Min(LowestCritical(Mixing), LowestCritical(Apart));
        AddTrappedGas();
    }

    /// <summary>True for a gas that liquids hold by reaction or strong solvation.</summary>
    public static bool IsHeld(Substance substance) => HeldBySolvents.Contains(substance.Key);

    public ClosedVesselInput Input { get; }

    public double VolumeM3 { get; }

    /// <summary>Liquids in the mole fractions.</summary>
    public ChargedPart[] Mixing { get; }

    /// <summary>Volatiles without groups, and volatile solids: each adds its own vapour pressure.</summary>
    public ChargedPart[] Apart { get; }

    /// <summary>True when a content that is a gas at 25 °C and 1 atm stands apart: modified Raoult adds its pure vapour pressure.</summary>
    public bool HasGasApart { get; }

    /// <summary>Gases and volatile acids in solution, whose partial pressures come from <see cref="SolutionVapour"/>.</summary>
    public ChargedPart[] Dissolved { get; }

    /// <summary>Volume that a mol of each of them adds to the liquid, in m³/mol.</summary>
    public double[] DissolvedM3PerMol { get; }

    /// <summary>Salts, metals, solids, and liquids of unknown vapour pressure: they take room only.</summary>
    public ChargedPart[] Room { get; }

    /// <summary>True when a liquid of unknown vapour pressure or without any is among <see cref="Room"/>.</summary>
    public bool TakesRoomAsLiquid { get; }

    /// <summary>Contents that are gases in solution, for which no model is on file.</summary>
    public IReadOnlyList<Substance> Held { get; }

    /// <summary>Activity model of <see cref="Mixing"/>; null for fewer than two, or where parameters are missing.</summary>
    public Unifac? Model { get; }

    /// <summary>Modified UNIFAC for cyclic ethers with water, which original UNIFAC misjudges; null for other contents, and beside dissolved gases.</summary>
    public Unifac? CyclicEthers { get; }

    /// <summary>Pairs of groups without published interaction parameters.</summary>
    public IReadOnlyList<string> Gaps { get; } = [];

    /// <summary>Contents that were above their critical temperature at filling, in mol.</summary>
    public double ChargedGasMol { get; private set; }

    /// <summary>Trapped gas, evolved gas and charged gas in mol.</summary>
    public double GasMol { get; private set; }

    /// <summary>Trapped gas alone, in mol.</summary>
    public double TrappedMol { get; private set; }

    public IReadOnlyList<ChargedPart> ChargedGases => _chargedGases ?? NoParts;

    /// <summary>Components of Peng–Robinson, or null where critical constants are not on file for one of them.</summary>
    public EquationComponent[]? EquationComponents => (_components ??= Components()) is var components && ReferenceEquals(components, NoConstants) ? null : components;

    /// <summary>The charge as PSRK sees it.</summary>
    public PsrkCharge Psrk => _psrk ??= new PsrkCharge([.. Mixing, .. Apart, .. Dissolved], Gases());

    /// <summary>True when Peng–Robinson may govern at some temperature.</summary>
    public bool EquationMayEverGovern => _equationMayEverGovern ??= Input.Contents.Count > 0 && Input.Contents.All(static content => EquationOfStateVessel.MayEverGovern(content.Substance));

    /// <summary>Lowest critical temperature in K among what condenses; infinite where none is on file.</summary>
    public double LowestCriticalK { get; }

    /// <summary>
    /// True when more than one model may govern on the way to a temperature in K: liquids that may split and mix, contents that pass
    /// their critical temperature, or an equation of state beside the others.
    /// </summary>
    public bool MayHandOver(double toK) => (Held.Count == 0 && (Model is not null || Gaps.Count > 0 || Apart.Length > 0)) || EquationMayGovern(toK);

    /// <summary>True when an equation of state may govern somewhere on the way to a temperature in K.</summary>
    public bool EquationMayGovern(double toK) => EquationMayEverGovern || toK > LowestCriticalK || ((HasGasApart || HasGas(Mixing) || HasGas(Dissolved)) && Psrk.DissolvesGas);

    /// <summary>The governing answer alone, without the models that cannot govern.</summary>
    public ModelState GoverningAt(double temperatureK)
    {
        var point = PointAt(temperatureK);
        var raoult = WithCyclicEthers(ModifiedRaoult.Solve(point, GasMol), point);
        var equation = EquationOfStateVessel.PengRobinsonMayGovern(point) ? EquationOfStateVessel.PengRobinson(point) : NotNeeded;
        var psrk = GoverningModel.PsrkMayGovern(raoult, point) ? EquationOfStateVessel.Psrk(point) : NotNeeded;
        var bound = raoult.OneLiquid && raoult.State.PressurePaAbs is not null ? NotNeeded : ImmiscibleBound.Solve(point, GasMol);
        return GoverningModel.Of(raoult, equation, psrk, bound, point).Governing;
    }

    public VesselState At(double temperatureK)
    {
        var point = PointAt(temperatureK);
        var raoult = ModifiedRaoult.Solve(point, GasMol);
        var bound = ImmiscibleBound.Solve(point, GasMol);
        var equation = EquationOfStateVessel.PengRobinson(point);
        var psrk = EquationOfStateVessel.Psrk(point);
        var credible = WithCyclicEthers(raoult, point);
        var (governing, because) = GoverningModel.Of(credible, equation, psrk, bound, point);
        ModelState[] models = credible == raoult ? [raoult.State, equation, psrk, bound] : [raoult.State, credible.State, equation, psrk, bound];
        return new VesselState(temperatureK, models, governing, because, [.. _warnings ?? [], .. point.Warnings()])
        {
            Missing = Missing(point, governing.Model),
        };
    }

    // Modified UNIFAC takes the place of original UNIFAC where that one is known to be wrong.
    private RaoultAnswer WithCyclicEthers(RaoultAnswer raoult, VesselPoint point)
    {
        if (CyclicEthers is null || raoult.State.PressurePaAbs is null || raoult.State.Phase == VesselPhase.LiquidFull)
        {
            return raoult;
        }

        // It predicts wider miscibility gaps than are measured (9:1 tetrahydrofuran and water mix at 80 °C), so that original UNIFAC decides on those.
        var answer = ModifiedRaoult.Solve(point, GasMol, point.Mixing, CyclicEthers.At(point.TemperatureK)) with { OneLiquid = raoult.OneLiquid };
        return answer with { State = answer.State with { Model = VesselModel.ModifiedUnifac, Method = CyclicEtherSources } };
    }

    /// <summary>Keys of the contents that no answer at this temperature counts.</summary>
    public IReadOnlyList<string> MissingAt(double temperatureK) => MissingFrom(PressureAt(temperatureK).Model, temperatureK);

    /// <summary>The same where the model that governs at the temperature is known.</summary>
    public IReadOnlyList<string> MissingFrom(VesselModel governing, double temperatureK) => Missing(Passing(temperatureK), governing);

    /// <summary>The immiscible bound in Pa; null where there is none.</summary>
    public double? BoundPaAt(double temperatureK) => ImmiscibleBound.PascalAt(Passing(temperatureK), GasMol);

    /// <summary>The properties at a temperature in K; those of the last one are kept, for what is asked twice.</summary>
    private VesselPoint PointAt(double temperatureK) => _point?.TemperatureK == temperatureK ? _point : _point = new VesselPoint(this, temperatureK);

    /// <summary>The same for a question whose answer holds no point.</summary>
    private VesselPoint Passing(double temperatureK) => _point?.TemperatureK == temperatureK ? _point : Moved(temperatureK);

    /// <summary>Keys of the contents that alone leave modified Raoult without a pressure at a temperature in K.</summary>
    public IReadOnlyList<string> UnrepresentedAt(double temperatureK) => Unrepresented(PointAt(temperatureK));

    private string[] Unrepresented(VesselPoint point) => [.. Held.Concat(point.Unknown).Concat(point.HeldPastCritical).Select(s => s.Key).Distinct(StringComparer.Ordinal)];

    private List<string> Missing(VesselPoint point, VesselModel governing) =>
        governing == VesselModel.Psrk || (Held.Count == 0 && point.Unknown.Count == 0 && point.HeldPastCritical.Count == 0) ? _missing ?? NoKeys : [.. _missing ?? NoKeys, .. Unrepresented(point)];

    private EquationComponent[] Components()
    {
        var gases = Gases();
        var components = new EquationComponent[Mixing.Length + Apart.Length + Dissolved.Length + gases.Count];
        var at = 0;
        foreach (var (parts, isGas) in new[] { (Mixing, false), (Apart, false), (Dissolved, false), ([.. gases], true) })
        {
            foreach (var part in parts)
            {
                if (CriticalConstants.Of(part.Substance) is not { } constants)
                {
                    return NoConstants;
                }

                components[at++] = new EquationComponent(isGas ? "headspace" : part.Substance.Key, part.Mol, constants, isGas);
            }
        }

        return components;
    }

    private static bool HasGas(ChargedPart[] parts) => Array.Exists(parts, static part => part.Substance.PhaseAt298K == Phase.Gas);

    private static double LowestCritical(ChargedPart[] parts)
    {
        var lowest = double.PositiveInfinity;
        foreach (var part in parts)
        {
            lowest = Math.Min(lowest, part.Substance.CriticalTemperatureK?.Value ?? double.PositiveInfinity);
        }

        return lowest;
    }
}
