using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Reporting;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Substances;

/// <summary>A solution or mixture as <c>substance</c> shows it: its parts, density, concentration and partial pressures.</summary>
internal static class SolutionAnswer
{
    private const double PaPerBar = 1e5;

    /// <summary>The solution that is asked for; null when it is a substance, or nothing.</summary>
    public static NamedSolution? Find(JsonTree asked)
    {
        var unheard = new FaultList();
        string? cas = null;
        string? name = null;
        if (asked is JsonTree.Text { Value: var word })
        {
            (cas, name) = (word, word);
        }
        else
        {
            var reader = new ObjectReader(asked, "", "an object", unheard);
            cas = reader.Text("cas", TextLimit.Identifier);
            name = cas is null ? reader.Text("name", TextLimit.Line) : null;
        }

        return cas is not null && Catalog.Default.TryFindByCas(cas, out _) ? null
            : cas is not null && SolutionCatalog.Default.TryFindByCas(cas, out NamedSolution? byCas) ? byCas
            : name is null || SubstanceResolution.Resolve(name, Catalog.Default).Known is not null || Catalog.Default.TryFindBySmiles(name, out _) ? null
            : SolutionCatalog.Default.TryFind(name, out NamedSolution? byName) ? byName
            : null;
    }

    public static Answer Of(NamedSolution solution, double temperatureC)
    {
        string[] sources = [Catalog.Default.Reference(solution.Source)];
        (string Name, double? Value, string Unit, double? AtC, string[] Sources, string? Because)[] values =
        [
            ("density", solution.DensityKgPerM3?.Value, "kg/m³", solution.DensityTemperatureK - UnitTable.CelsiusZeroK, sources, null),
            ("concentration", solution.SoluteMolPerM3 / 1000, "mol/L", null, sources, solution.Solute is null ? "a mixture without one solute" : null),
            .. Pressures(solution, temperatureC),
        ];
        return Answer.Of(Json(solution, values), Text(solution, values), isFlagged: false);
    }

    private static IEnumerable<(string, double?, string, double?, string[], string?)> Pressures(NamedSolution solution, double temperatureC)
    {
        if (solution is not { Solute: { } solute, Solvent: { Key: SolutionVapour.Water } water } || !SolutionVapour.HasAqueous(solute.Key))
        {
            yield break;
        }

        double temperatureK = temperatureC + UnitTable.CelsiusZeroK;
        double[] mol = [.. solution.Parts.Select(part => part.MassFraction / part.Substance.Identity.MolarMassKgPerMol ?? 0)];
        AqueousPressures pressures = SolutionVapour.Aqueous(solute, mol[0], mol[1], temperatureK)!.Value;
        string[] sources = [Catalog.Default.Reference(pressures.Source)];
        string? because = pressures.InRange ? null : "extrapolated: strength or temperature is outside the published range";
        yield return ($"partial pressure of {solute.Identity.Name}", pressures.SolutePa / PaPerBar, "bar", temperatureC, sources, because);
        if (VapourPressure.At(water, temperatureK) is { Volatility: Volatility.Condensable, Pascal: var pascal })
        {
            yield return ("partial pressure of water", pressures.WaterActivity * pascal / PaPerBar, "bar", temperatureC, sources, because);
        }
    }

    private static JsonObject Json(NamedSolution solution, (string Name, double? Value, string Unit, double? AtC, string[] Sources, string? Because)[] values) => new()
    {
        ["identity"] = new JsonObject
        {
            ["name"] = solution.Name,
            ["cas"] = solution.Cas,
            ["formula"] = null,
            ["molarMass"] = null,
            ["smiles"] = null,
            ["synonyms"] = Texts(solution.Synonyms),
            ["groups"] = Texts([.. solution.Parts.SelectMany(Families).Distinct(StringComparer.Ordinal)]),
            ["kind"] = solution.Strength is null ? "mixture" : "solution",
            ["strength"] = solution.Strength?.ToString(),
            ["strengthAssumed"] = solution.StrengthAssumed,
            ["parts"] = new JsonArray([.. solution.Parts.Select(part => new JsonObject
            {
                ["name"] = part.Substance.Identity.Name,
                ["cas"] = part.Substance.Identity.Cas,
                ["massFraction"] = JsonText.Number(part.MassFraction),
            })]),
            ["note"] = solution.Note,
        },
        ["values"] = new JsonArray([.. values.Select(value =>
        {
            var json = new JsonObject
            {
                ["name"] = value.Name,
                ["value"] = JsonText.Number(value.Value),
                ["unit"] = value.Unit,
                ["quality"] = value.Value is null ? "missing" : ReportWords.Of(solution.Quality),
                ["source"] = Texts(value.Sources),
            };
            if (value.AtC is { } celsius)
            {
                json["temperatureC"] = Math.Round(celsius, 9);
            }

            if (value.Because is { } because)
            {
                json["because"] = because;
            }

            return json;
        })]),
    };

    private static string Text(NamedSolution solution, (string Name, double? Value, string Unit, double? AtC, string[] Sources, string? Because)[] values)
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{solution.Label}{(solution.StrengthAssumed ? " (strength assumed)" : "")}  CAS {solution.Cas ?? "–"}");
        text.AppendLine(CultureInfo.InvariantCulture, $"Holds {solution.Contents}");
        if (solution.Note.Length > 0)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Note: {solution.Note}");
        }

        text.AppendLine();
        var table = new TextTable("value", "", "unit", "quality", "source");
        foreach (var value in values)
        {
            table.Add(
                value.AtC is { } celsius ? $"{value.Name} at {Rounded.Temperature(celsius)} °C" : value.Name,
                Rounded.Significant(value.Value, 4),
                value.Unit,
                value.Value is null ? "–" : ReportWords.Of(solution.Quality),
                value.Because ?? string.Join("; ", value.Sources));
        }

        return text.Append(table).ToString();
    }

    private static IReadOnlyList<string> Families(SolutionPart part) =>
        FamilyTable.Default.Of(new PlanSubstance(part.Substance.Key, part.Substance.Identity.Name, part.Substance), part.MassFraction);

    private static JsonArray Texts(IReadOnlyList<string> texts) => [.. texts.Select(text => JsonValue.Create(text))];
}
