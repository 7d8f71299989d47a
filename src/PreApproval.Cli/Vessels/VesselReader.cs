using System.Globalization;
using PreApproval.Cli.Inputs;
using PreApproval.Documents;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Cli.Vessels;

/// <summary>Reads the input of <c>vessel</c>, collecting every fault.</summary>
internal sealed class VesselReader
{
    private const double PaPerBar = 1e5;
    private const double M3PerMl = 1e-6;
    private const double KgPerG = 1e-3;
    private const int MostEntries = 1_000;

    private static readonly string[] AmountMembers = ["mol", "g", "mL"];

    private readonly FaultList _faults = new();
    private readonly Dictionary<string, string> _identifiers = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _pureAt = new(StringComparer.Ordinal);
    private readonly List<string> _readings = [];

    /// <summary>The question, or all faults.</summary>
    public static (VesselQuestion? Question, IReadOnlyList<Fault> Faults) Read(ReadOnlyMemory<byte> utf8)
    {
        var reader = new VesselReader();
        VesselQuestion? question = JsonTreeReader.Read(utf8.Span, reader._faults) is { } tree ? reader.Question(tree) : null;
        Fault[] faults = [.. reader._faults.All.Select(fault => new Fault(fault.Path, fault.Message))];
        return (faults.Length == 0 ? question : null, faults);
    }

    private VesselQuestion? Question(JsonTree tree)
    {
        var reader = new ObjectReader(tree, "", "a closed vessel as an object", _faults);
        double? volumeMl = Positive(reader, "vesselVolumeMl", "the inner volume in mL", 1e6, "give the inner volume in mL");
        double? fillC = Temperature(reader, "fillTemperatureC", "the temperature at closing in °C");
        double? fillBar = FillPressure(reader);
        IReadOnlyList<(Substance, double)>? headspace = Headspace(reader, ref fillBar);
        double fillK = (fillC ?? 20) + UnitTable.CelsiusZeroK;
        IReadOnlyList<IReadOnlyList<ChargedSubstance>?>? contents = reader.List("contents", MostEntries, (item, path) => Content(item, path, fillK), "list what is shut in, [] for gas alone");
        double? evolved = reader.Number("gasEvolvedMol", "the gas made inside in mol");
        if (evolved < 0)
        {
            _faults.Invalid("/gasEvolvedMol", "must be 0 or more");
        }

        IReadOnlyList<double?>? temperatures = reader.List("temperaturesC", MostEntries, TemperatureItem, "list the temperatures in °C", least: 1);
        double? rating = reader.Number("ratingBarGauge", "the rating in bar(g)");
        if (rating < 0)
        {
            _faults.Invalid("/ratingBarGauge", "must be 0 or more");
        }

        reader.End();
        if (_faults.All.Count > 0 || volumeMl is not { } ml || contents is null || temperatures is null || headspace is null)
        {
            return null;
        }

        var input = new ClosedVesselInput
        {
            VesselVolumeM3 = ml * M3PerMl,
            FillTemperatureK = fillK,
            FillPressurePaAbs = (fillBar ?? 1.01325) * PaPerBar,
            Headspace = headspace,
            Contents = [.. contents.OfType<IReadOnlyList<ChargedSubstance>>().SelectMany(content => content)],
            GasEvolvedMol = evolved ?? 0,
        };
        CheckVolume(input, fillC ?? 20, ml);
        return _faults.All.Count > 0 ? null : new VesselQuestion(input, [.. temperatures.OfType<double>()], rating, _identifiers, _readings);
    }

    // More than the vessel holds cannot be closed. A dissolved gas takes less room than its liquid and is left out.
    private void CheckVolume(ClosedVesselInput input, double fillC, double vesselMl)
    {
        double chargedMl = 0;
        foreach (ChargedSubstance content in input.Contents)
        {
            if (content.Substance.PhaseAt298K != Phase.Gas)
            {
                chargedMl += content.Mol * LiquidVolume.At(content.Substance, input.FillTemperatureK).M3PerMol / M3PerMl;
            }
        }

        if (chargedMl > vesselMl)
        {
            _faults.Invalid("/contents", string.Create(CultureInfo.InvariantCulture, $"take {chargedMl:0.##} mL at {fillC:0.#} °C, more than the {vesselMl:0.##} mL of the vessel"));
        }
    }

    private double? Positive(ObjectReader reader, string name, string what, double most, string required)
    {
        double? number = reader.Number(name, what, required);
        if (number <= 0 || number > most)
        {
            _faults.Invalid(reader.PathOf(name), string.Create(CultureInfo.InvariantCulture, $"must be above 0 and at most {most:0}"));
            return null;
        }

        return number;
    }

    private double? Temperature(ObjectReader reader, string name, string what) =>
        reader.Number(name, what) is { } celsius ? InRange(celsius, reader.PathOf(name)) : null;

    private double? TemperatureItem(JsonTree value, string path) =>
        ObjectReader.NumberOf(value, path, "a temperature in °C", _faults) is { } celsius ? InRange(celsius, path) : null;

    private double? InRange(double celsius, string path)
    {
        if (TypedTemperature.Fault(celsius) is not { } fault)
        {
            return celsius;
        }

        _faults.Invalid(path, fault);
        return null;
    }

    private double? FillPressure(ObjectReader reader)
    {
        double? bar = reader.Number("fillPressureBarAbs", "the pressure of the dry headspace gas in bar absolute");
        if (bar is < 0 or > 10_000)
        {
            _faults.Invalid("/fillPressureBarAbs", "must be from 0 to 10000 bar absolute");
        }

        return bar;
    }

    private IReadOnlyList<(Substance Gas, double Fraction)>? Headspace(ObjectReader reader, ref double? fillBar)
    {
        string word = reader.Text("headspace", TextLimit.Line) ?? "air";
        switch (word)
        {
            case "air":
                return ClosedVesselInput.Air;
            case "vacuum":
                if (fillBar > 0)
                {
                    _faults.Invalid("/fillPressureBarAbs", "contradicts \"vacuum\", which is 0 bar; leave it out");
                }

                fillBar = 0;
                return [];
            default:
                return Find(word, "/headspace") is { } gas ? [(gas, 1)] : null;
        }
    }

    private IReadOnlyList<ChargedSubstance>? Content(JsonTree value, string path, double fillK)
    {
        var reader = new ObjectReader(value, path, "a content as an object, for instance {\"substance\": \"108-88-3\", \"mol\": 0.05}", _faults);
        string? identifier = reader.Text("substance", TextLimit.Structure, "name the substance by CAS number, name or SMILES");
        double? mol = reader.Number("mol", "an amount in mol");
        double? g = reader.Number("g", "a mass in g");
        double? ml = reader.Number("mL", "a volume in mL");
        reader.End();
        if (!reader.IsObject)
        {
            return null;
        }

        int given = AmountMembers.Count(reader.Has);
        if (given != 1)
        {
            _faults.Invalid(path, given == 0 ? "has no amount: give \"mol\", \"g\" or \"mL\"" : "has more than one amount: give one of \"mol\", \"g\" and \"mL\"");
            return null;
        }

        if ((mol ?? g ?? ml) is not { } amount || identifier is null)
        {
            return null;
        }

        if (amount <= 0)
        {
            _faults.Invalid(reader.PathOf(mol is not null ? "mol" : g is not null ? "g" : "mL"), "must be above 0");
            return null;
        }

        if (Solution(identifier) is { } solution)
        {
            Amount typed = mol is not null ? new Amount.Mol(amount) : g is not null ? new Amount.Mass(amount * KgPerG) : new Amount.Volume(amount * M3PerMl);
            return Parts(identifier, solution, typed, path);
        }

        if (Find(identifier, reader.PathOf("substance")) is not { } substance)
        {
            return null;
        }

        if (!_pureAt.TryAdd(substance.Key, path))
        {
            _faults.Invalid(reader.PathOf("substance"), $"is {substance.Identity.Name}, which {_pureAt[substance.Key]} lists already; give one amount");
            return null;
        }

        _identifiers.TryAdd(substance.Key, identifier);
        double? moles = mol ?? (g is { } grams ? OfMass(substance, grams, reader.PathOf("g")) : OfVolume(substance, amount, fillK, reader.PathOf("mL")));
        return moles is { } n ? [new ChargedSubstance(substance, n)] : null;
    }

    /// <summary>A solution or mixture by its name or its own CAS number; a name of the catalogue stays the pure substance.</summary>
    private static NamedSolution? Solution(string identifier) =>
        SubstanceResolution.Resolve(identifier, Catalog.Default).Known is not null || Catalog.Default.TryFindBySmiles(identifier, out _) ? null
        : SolutionCatalog.Default.TryFindByCas(identifier, out NamedSolution? byCas) ? byCas
        : SolutionCatalog.Default.TryFind(identifier, out NamedSolution? byName) ? byName
        : null;

    private IReadOnlyList<ChargedSubstance>? Parts(string identifier, NamedSolution solution, Amount amount, string path)
    {
        ConvertedAmount converted = AmountConversion.Convert(solution.Composition, amount);
        if (converted.Missing.Count > 0)
        {
            _faults.Invalid(path, $"the amount of \"{Shown.Text(identifier)}\" cannot be converted: missing {string.Join(" and ", converted.Missing)}; give its parts in mol");
            return null;
        }

        _readings.Add($"\"{identifier}\" is read as {solution.Label}: {solution.Contents}{(solution.StrengthAssumed ? "; the strength is assumed, state it" : "")}.");
        return [.. converted.Portions.Select(portion => new ChargedSubstance(portion.Substance.Known!, portion.Mol!.Value))];
    }

    private double? OfMass(Substance substance, double grams, string path)
    {
        if (substance.Identity.MolarMassKgPerMol is { } molarMass)
        {
            return grams * KgPerG / molarMass;
        }

        _faults.Invalid(path, $"the molar mass of {substance.Identity.Name} is not known; give mol");
        return null;
    }

    private double? OfVolume(Substance substance, double ml, double fillK, string path)
    {
        if (substance.PhaseAt298K == Phase.Gas && (substance.BoilingPointK is not { } boiling || boiling.Value <= fillK))
        {
            _faults.Invalid(path, $"{substance.Identity.Name} is a gas at the fill temperature, so that mL says no amount; give mol or g");
            return null;
        }

        return ml * M3PerMl / LiquidVolume.At(substance, fillK).M3PerMol;
    }

    private Substance? Find(string identifier, string path)
    {
        PlanSubstance found = SubstanceResolution.Resolve(identifier, Catalog.Default);
        if (found.Known is { } substance || Catalog.Default.TryFindBySmiles(identifier, out substance))
        {
            return substance;
        }

        _faults.Invalid(path, $"no substance \"{Shown.Text(identifier)}\" is on file, by CAS number, name or SMILES");
        return null;
    }
}
