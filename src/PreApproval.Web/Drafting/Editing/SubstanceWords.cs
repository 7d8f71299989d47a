using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using PreApproval.Documents;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;
using PreApproval.Web.Catalogue;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>What to know of a substance, in one line beside its field.</summary>
public static partial class SubstanceWords
{
    private const double CelsiusZeroK = 273.15;

    public static string Of(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        List<string> parts = [substance.Identity.Name];
        if (substance.Identity.Cas is { } cas)
        {
            parts.Add(cas);
        }

        if (substance.Identity.Formula is { } formula)
        {
            parts.Add(formula);
        }

        if (substance.Identity.MolarMassKgPerMol is { } molarMass)
        {
            parts.Add($"{Words.Number(molarMass * 1000)} g/mol");
        }

        if (substance.BoilingPointK is { } boiling)
        {
            parts.Add($"boils at {Celsius(boiling.Value)}");
        }

        if (substance.FlashPointK is { } flash)
        {
            parts.Add($"flash point {Celsius(flash.Governing.Value)}");
        }

        if (substance.AutoignitionK is { } ignition)
        {
            parts.Add($"ignites by itself at {Celsius(ignition.Governing.Value)}");
        }

        return string.Join(" · ", parts);
    }

    /// <summary>
    /// Why millilitres say little of it, or null: it is a gas at room temperature or boils at or below the temperature it goes in at.
    /// </summary>
    /// <param name="chargedAtC">Temperature of the step it goes into, in °C; null: not said.</param>
    public static string? WhyNotByVolume(Substance substance, double? chargedAtC)
    {
        ArgumentNullException.ThrowIfNull(substance);
        double? boilsAtC = substance.BoilingPointK is { } boiling ? boiling.Value - CelsiusZeroK : null;
        if (substance.PhaseAt298K != Phase.Gas && !(boilsAtC <= chargedAtC))
        {
            return null;
        }

        string why = substance.BoilingPointK is { } known ? $"Boils at {Celsius(known.Value)}" : "Is a gas at room temperature";
        return $"{why}: give mass, mol, or the temperature it is measured at";
    }

    /// <summary>The substance that a reference of a document names, where the catalogue or the group's own list has it.</summary>
    /// <param name="reference">As the document writes it.</param>
    /// <param name="listed">The group's own list.</param>
    /// <param name="own">True where values of that list are in it.</param>
    public static Substance? Find(JsonNode? reference, IReadOnlyList<ListedGroupSubstance> listed, out bool own)
    {
        var named = new SubstanceReference { Cas = TextOf(reference, "cas"), Name = TextOf(reference, "name"), Smiles = TextOf(reference, "smiles") };
        own = false;
        if (named is { Cas: null, Name: null, Smiles: null })
        {
            return null;
        }

        Substance? known = SubstanceResolution.Resolve(named, Catalog.Default).Known;
        if (reference?["properties"] is not null || GroupSubstanceUse.Find(named, listed) is not { } found)
        {
            return known;
        }

        own = true;
        return SubstanceCard.OfOwn(found).Substance;
    }

    /// <summary>What a name of a solution or mixture is read as, in one line; null for anything else.</summary>
    public static string? Solution(JsonNode? reference)
    {
        string cas = DocumentText.Text(reference, "cas");
        string name = DocumentText.Text(reference, "name");
        return (cas.Length > 0 ? SolutionCatalog.Default.TryFindByCas(cas, out NamedSolution? solution) : SolutionCatalog.Default.TryFindInProcedure(name, out solution)) && solution is not null
            ? $"{solution.Label} · {solution.Contents}{(solution.StrengthAssumed ? " · the strength is assumed: type the one on the bottle" : "")}"
            : null;
    }

    /// <summary>What the structure of an unlisted substance says, in one line; null without one.</summary>
    public static string? Structure(string smiles)
    {
        if (smiles.Length == 0)
        {
            return null;
        }

        TypedStructure structure = TypedStructure.Of(smiles);
        if (structure.Error is { } error)
        {
            return $"Not in the catalogue, and its structure cannot be read. {error}";
        }

        List<string> parts = ["Not in the catalogue", structure.Formula!, structure.MolarMassKgPerMol is { } mass ? $"{Words.Number(mass * 1000)} g/mol" : "molar mass unknown", .. structure.Families];
        if (structure.Relation is { } relation)
        {
            parts.Add(relation.Words);
        }

        return $"{string.Join(" · ", parts)}. Fire, vapour pressure and stability stay unknown and become findings.";
    }

    private static string? TextOf(JsonNode? reference, string member) => DocumentText.Text(reference, member) is { Length: > 0 } text ? text : null;

    public static bool LooksLikeCas(string text) => Cas.IsMatch(text);

    [GeneratedRegex("^[1-9][0-9]{1,6}-[0-9]{2}-[0-9]$", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Cas { get; }

    private static string Celsius(double kelvin) => $"{Words.Number(Math.Round(kelvin - CelsiusZeroK, 1))} °C";
}
