using System.Text.RegularExpressions;
using PreApproval.Hazards.Substances;
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

    public static bool LooksLikeCas(string text) => Cas.IsMatch(text);

    [GeneratedRegex("^[1-9][0-9]{1,6}-[0-9]{2}-[0-9]$", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 100)]
    private static partial Regex Cas { get; }

    private static string Celsius(double kelvin) => $"{Words.Number(Math.Round(kelvin - CelsiusZeroK, 1))} °C";
}
