using System.CommandLine.Parsing;
using System.Globalization;
using PreApproval.Cli.Output;
using PreApproval.Documents;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Reading;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Substances;

/// <summary><c>substance</c>: identity and every value with its source and quality.</summary>
internal static class SubstanceCommand
{
    /// <summary>Temperature of the vapour pressure when none is asked for, in °C.</summary>
    public const double UsualTemperatureC = 25;

    private const int NearNames = 3;

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

        PlanSubstance? found = asked is not null ? Find(asked, faults) : null;
        if (found is { Known: null, Structure: { Molecule: not null } structure } && faults.All.Count == 0)
        {
            return StructureAnswer.Of(found.Name, structure);
        }

        if (found?.Known is not { } substance || faults.All.Count > 0)
        {
            return new Problem("Unusable substance", "The substance cannot be found.", [.. faults.All.Select(fault => new Fault(fault.Path, fault.Message))]);
        }

        IReadOnlyList<SubstanceValue> values = SubstanceValues.Of(substance, temperatureC);
        return Output.Answer.Of(SubstanceOutput.Json(substance, values), SubstanceOutput.Text(substance, values), isFlagged: false);
    }

    private static PlanSubstance? Find(JsonTree tree, FaultList faults)
    {
        if (tree is JsonTree.Text { Value: var word })
        {
            PlanSubstance named = SubstanceResolution.Resolve(word, Catalog.Default);
            return Found(word, named.Known is not null ? named : SubstanceResolution.Resolve(new SubstanceReference { Smiles = word.Trim() }, Catalog.Default), "", faults);
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
        return Found(identifier, SubstanceResolution.Resolve(reference, Catalog.Default), reader.PathOf(smiles is null ? place : "smiles"), faults);
    }

    /// <summary>Reads <c>--at</c>, whatever the language of the system: a decimal point, no unit.</summary>
    public static double ParseTemperature(ArgumentResult result)
    {
        string word = result.Tokens is [var token] ? token.Value : "";
        if (double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out double celsius))
        {
            return celsius;
        }

        result.AddError($"--at takes a number of °C with a decimal point, like 25 or -10.5, not '{Shown.Text(word)}'.");
        return double.NaN;
    }

    private static PlanSubstance Found(string identifier, PlanSubstance found, string path, FaultList faults)
    {
        if (found is { Known: null, Structure: null or { Molecule: null } })
        {
            faults.Invalid(path, $"no substance \"{Shown.Text(identifier)}\" is on file, by CAS number, name or SMILES{SmilesFault.Of(found.Structure)}{Hint(identifier)}");
        }

        return found;
    }

    private static string Hint(string identifier)
    {
        if (LooksLikeCas(identifier))
        {
            return CasNumber.IsValid(identifier.Trim()) ? "" : "; its check digit is wrong for a CAS number";
        }

        var near = new List<string>(NearNames);
        if (NearName.Of(identifier, Catalog.Default.Substances.SelectMany(candidate => candidate.Identity.Synonyms.Prepend(candidate.Identity.Name))) is { } nearest)
        {
            near.Add(nearest);
        }

        IEnumerable<string> beginnings = Catalog.Default.Search(identifier, NearNames).Select(candidate => candidate.Identity.Name);
        near.AddRange(beginnings.Where(name => !near.Contains(name, StringComparer.Ordinal)).Take(NearNames - near.Count));
        return near.Count == 0 ? "" : $"; did you mean {string.Join(" or ", near.Select(name => $"\"{name}\""))}?";
    }

    private static bool LooksLikeCas(string identifier) =>
        identifier.Trim().Split('-') is [{ Length: > 0 } first, { Length: 2 } second, { Length: 1 } third]
        && first.All(char.IsAsciiDigit) && second.All(char.IsAsciiDigit) && third.All(char.IsAsciiDigit);
}
