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

namespace PreApproval.Cli.Mixtures;

/// <summary>Reads the input of <c>mixture</c>, collecting every fault.</summary>
internal sealed class MixtureReader
{
    /// <summary>How far from 1 the mole fractions may sum; they are then divided by their sum.</summary>
    private const double SumTolerance = 1e-3;

    private const int MostEntries = 100;
    private const int MostNear = 3;

    private readonly FaultList _faults = new();

    /// <summary>The question, or all faults.</summary>
    public static (MixtureQuestion? Question, IReadOnlyList<Fault> Faults) Read(ReadOnlyMemory<byte> utf8)
    {
        var reader = new MixtureReader();
        MixtureQuestion? question = JsonTreeReader.Read(utf8.Span, reader._faults) is { } tree ? reader.Question(tree) : null;
        Fault[] faults = [.. reader._faults.All.Select(fault => new Fault(fault.Path, fault.Message))];
        return (faults.Length == 0 ? question : null, faults);
    }

    private MixtureQuestion? Question(JsonTree tree)
    {
        var reader = new ObjectReader(tree, "", "a mixture as an object", _faults);
        IReadOnlyList<Entry?>? entries = reader.List("contents", MostEntries, Content, "list the components, for instance [{\"substance\": \"64-17-5\", \"x\": 0.2}, …]", least: 1);
        double? celsius = reader.Number("temperatureC", "the temperature in °C", "give the temperature in °C");
        if (celsius is { } asked && TypedTemperature.Fault(asked) is { } fault)
        {
            _faults.Invalid("/temperatureC", fault);
        }

        reader.End();
        if (entries is null || entries.Any(entry => entry is null))
        {
            return null;
        }

        Entry[] contents = [.. entries.OfType<Entry>()];
        Repeats(contents);
        double sum = contents.Sum(entry => entry.MoleFraction);
        if (Math.Abs(sum - 1) > SumTolerance + 1e-12)
        {
            _faults.Invalid("/contents", string.Create(CultureInfo.InvariantCulture, $"has mole fractions that sum to {sum:0.######}; they must sum to 1 within {SumTolerance}"));
        }

        if (celsius is { } temperature && _faults.All.Count == 0)
        {
            Temperature(contents, temperature);
        }

        if (_faults.All.Count > 0 || celsius is not { } at)
        {
            return null;
        }

        string[] warnings = Math.Abs(sum - 1) > 1e-9
            ? [string.Create(CultureInfo.InvariantCulture, $"The mole fractions sum to {sum:0.######}; each was divided by that.")]
            : [];
        return new MixtureQuestion(
            new LiquidMixture([.. contents.Select(entry => new MixtureComponent(entry.Substance, entry.MoleFraction))]),
            at,
            [.. contents.Select(entry => entry.Identifier)],
            warnings);
    }

    private Entry? Content(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a component as an object, for instance {\"substance\": \"64-17-5\", \"x\": 0.2}", _faults);
        string? identifier = reader.Text("substance", TextLimit.Structure, "name the substance by CAS number, name or SMILES");
        double? fraction = reader.Number("x", "the mole fraction in the liquid", "give the mole fraction, from 0 to 1");
        reader.End();
        if (fraction is < 0 or > 1)
        {
            _faults.Invalid(reader.PathOf("x"), fraction < 0 ? "is negative; a mole fraction is from 0 to 1" : "is above 1; a mole fraction is from 0 to 1, not a percentage");
            fraction = null;
        }

        return identifier is not null && Find(identifier, reader.PathOf("substance")) is { } substance && fraction is { } x
            ? new Entry(identifier, substance, x, path)
            : null;
    }

    /// <summary>One substance may go by several names; two entries for it leave open which counts.</summary>
    private void Repeats(Entry[] contents)
    {
        foreach (IGrouping<string, Entry> group in contents.GroupBy(entry => entry.Substance.Key, StringComparer.Ordinal).Where(group => group.Count() > 1))
        {
            Entry first = group.First();
            foreach (Entry again in group.Skip(1))
            {
                _faults.Invalid(JsonPointer.Member(again.Path, "substance"), $"names {again.Substance.Identity.Name} again, which \"{Shown.Text(first.Identifier)}\" at {first.Path} already stands for; give each substance once");
            }
        }
    }

    /// <summary>A temperature at which some component is a gas, or at which nothing on file gives its vapour pressure.</summary>
    private void Temperature(Entry[] contents, double celsius)
    {
        double temperatureK = celsius + UnitTable.CelsiusZeroK;
        foreach (Substance substance in contents.Where(entry => entry.MoleFraction > 0).Select(entry => entry.Substance))
        {
            switch (VapourPressure.At(substance, temperatureK).Volatility)
            {
                case Volatility.Gas:
                    _faults.Invalid("/temperatureC", string.Create(
                        CultureInfo.InvariantCulture,
                        $"is above the critical temperature of {substance.Identity.Name} ({substance.CriticalTemperatureK!.Value - UnitTable.CelsiusZeroK:0.#} °C): it is a gas there, has no vapour pressure and cannot be a component of a liquid mixture by these models"));
                    break;
                case Volatility.Unknown when substance.VapourPressure.Count > 0:
                    _faults.Invalid("/temperatureC", $"is outside every range in which a vapour pressure of {substance.Identity.Name} is known: {string.Join(", ", substance.VapourPressure.Select(Range))}");
                    break;
                case Volatility.Unknown:
                case Volatility.Condensable:
                case Volatility.None:
                    break;
            }
        }
    }

    private static string Range(VapourPressureCorrelation correlation) => string.Create(
        CultureInfo.InvariantCulture,
        $"{correlation.MinimumK - UnitTable.CelsiusZeroK:0.#} to {correlation.MaximumK - UnitTable.CelsiusZeroK:0.#} °C");

    private Substance? Find(string identifier, string path)
    {
        PlanSubstance found = SubstanceResolution.Resolve(identifier, Catalog.Default);
        if (found.Known is { } substance || Catalog.Default.TryFindBySmiles(identifier, out substance))
        {
            return substance;
        }

        if (SolutionCatalog.Default.TryFind(identifier, out NamedSolution? solution))
        {
            _faults.Invalid(path, $"\"{Shown.Text(identifier)}\" is a solution or mixture ({solution.Label}: {solution.Contents}); give its parts with their mole fractions");
            return null;
        }

        string[] near = Near(identifier);
        string hint = near.Length == 0 ? "" : $"; near names: {string.Join(", ", near)}";
        _faults.Invalid(path, $"no substance \"{Shown.Text(identifier)}\" is on file, by CAS number, name or SMILES{hint}");
        return null;
    }

    private static string[] Near(string identifier)
    {
        string? spelt = NearName.Of(identifier, [.. Catalog.Default.Substances.SelectMany(substance => substance.Identity.Synonyms.Prepend(substance.Identity.Name))]);
        return
        [
            .. (spelt is null ? [] : new[] { spelt })
                .Concat(Catalog.Default.Search(identifier, MostNear).Select(substance => substance.Identity.Name))
                .Distinct(StringComparer.Ordinal)
                .Take(MostNear),
        ];
    }

    private sealed record Entry(string Identifier, Substance Substance, double MoleFraction, string Path);
}
