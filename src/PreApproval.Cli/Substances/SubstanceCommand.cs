using PreApproval.Cli.Output;
using PreApproval.Documents;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Substances;

/// <summary><c>substance</c>: identity and every value with its source and quality.</summary>
internal static class SubstanceCommand
{
    /// <summary>Temperature of the vapour pressure when none is asked for, in °C.</summary>
    public const double UsualTemperatureC = 25;

    private const double MostC = 2_726.85;

    public static bool IsCredible(double temperatureC) => temperatureC is > -UnitTable.CelsiusZeroK and <= MostC;

    /// <param name="utf8">A JSON string, or an object with cas, name or smiles.</param>
    /// <param name="temperatureC">Temperature of the vapour pressure in °C.</param>
    public static Answer Answer(ReadOnlyMemory<byte> utf8, double temperatureC)
    {
        var faults = new FaultList();
        JsonTree? asked = JsonTreeReader.Read(utf8.Span, faults);
        if (asked is not null && SolutionAnswer.Find(asked) is { } solution)
        {
            return SolutionAnswer.Of(solution, temperatureC);
        }

        Substance? substance = asked is not null ? Find(asked, faults) : null;
        if (substance is null || faults.All.Count > 0)
        {
            return new Problem("Unusable substance", "The substance cannot be found.", [.. faults.All.Select(fault => new Fault(fault.Path, fault.Message))]);
        }

        IReadOnlyList<SubstanceValue> values = SubstanceValues.Of(substance, temperatureC);
        return Output.Answer.Of(SubstanceOutput.Json(substance, values), SubstanceOutput.Text(substance, values), isFlagged: false);
    }

    private static Substance? Find(JsonTree tree, FaultList faults)
    {
        if (tree is JsonTree.Text { Value: var word })
        {
            return Found(word, SubstanceResolution.Resolve(word, Catalog.Default).Known ?? BySmiles(word), "", faults);
        }

        var reader = new ObjectReader(tree, "", "an object with \"cas\", \"name\" or \"smiles\"", faults);
        string? cas = reader.Text("cas", TextLimit.Identifier);
        string? name = reader.Text("name", TextLimit.Line);
        string? smiles = reader.Text("smiles", TextLimit.Structure);
        reader.End();
        if (!reader.IsObject || faults.All.Count > 0)
        {
            return null;
        }

        if ((cas ?? name ?? smiles) is not { } identifier)
        {
            faults.Invalid("", "names no substance: give \"cas\", \"name\" or \"smiles\"");
            return null;
        }

        var reference = new SubstanceReference { Cas = cas, Name = name, Smiles = smiles };
        string place = cas is not null ? "cas" : name is not null ? "name" : "smiles";
        return Found(identifier, SubstanceResolution.Resolve(reference, Catalog.Default).Known, reader.PathOf(place), faults);
    }

    private static Substance? BySmiles(string smiles) => Catalog.Default.TryFindBySmiles(smiles, out Substance? substance) ? substance : null;

    private static Substance? Found(string identifier, Substance? substance, string path, FaultList faults)
    {
        if (substance is null)
        {
            string hint = NearName.Of(identifier, Catalog.Default.Substances.Select(candidate => candidate.Identity.Name)) is { } near
                ? $"; did you mean \"{near}\"?"
                : "";
            faults.Invalid(path, $"no substance \"{Shown.Text(identifier)}\" is on file, by CAS number, name or SMILES{hint}");
        }

        return substance;
    }
}
