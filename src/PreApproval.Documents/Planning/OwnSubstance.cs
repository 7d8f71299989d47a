using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Planning;

/// <summary>
/// Adds the group's own values where the catalogue has none. A published value is never replaced: of two fire values the cautious one
/// governs and both are kept, so that an own value can make a check of fire stricter and never laxer.
/// </summary>
internal static class OwnSubstance
{
    public static Substance Complete(Substance? listed, SubstanceReference reference, SubstanceProperties own)
    {
        Substance substance = listed ?? new Substance
        {
            Identity = new Identity { Cas = reference.Cas, Name = reference.Name ?? reference.Cas ?? reference.Smiles ?? "", Smiles = reference.Smiles },
            PhaseAt298K = StateOf(own),
        };
        TypedStructure? structure = listed is null && reference.Smiles is { } smiles ? TypedStructure.Of(smiles) : null;
        bool hasVapourPressure = substance.VapourPressure.Count > 0 || substance.Involatile;
        return substance with
        {
            Identity = substance.Identity with
            {
                Formula = substance.Identity.Formula ?? own.Formula ?? structure?.Formula,
                MolarMassKgPerMol = substance.Identity.MolarMassKgPerMol ?? own.MolarMass?.Si ?? (own.Formula is { } formula ? Formula.MolarMassKgPerMol(formula) : structure?.MolarMassKgPerMol),
            },
            MeltingPointK = substance.MeltingPointK ?? Value(own.MeltingPoint, "meltingPoint"),
            BoilingPointK = substance.BoilingPointK ?? Value(own.BoilingPoint ?? Boiling(own.VapourPressure), own.BoilingPoint is null ? "vapourPressure" : "boilingPoint"),
            DensityKgPerM3 = substance.DensityKgPerM3 ?? Value(own.Density, "density"),
            FlashPointK = Cautious(substance.FlashPointK, Value(own.FlashPoint, "flashPoint"), highest: false),
            AutoignitionK = Cautious(substance.AutoignitionK, Value(own.Autoignition, "autoignition"), highest: false),
            LowerFlammableLimit = Cautious(substance.LowerFlammableLimit, Value(own.LowerFlammableLimit, "lowerFlammableLimit"), highest: false),
            UpperFlammableLimit = Cautious(substance.UpperFlammableLimit, Value(own.UpperFlammableLimit, "upperFlammableLimit"), highest: true),
            VapourPressure = !hasVapourPressure && own.VapourPressure is { InSi: { } coefficients, From: { } from, To: { } to }
                ? [new VapourPressureCorrelation("antoine-log10", coefficients, from.Si, to.Si, SourceOf("vapourPressure"))]
                : substance.VapourPressure,
        };

        Sourced<double>? Value(Quantity? quantity, string member) => quantity is null ? null : new Sourced<double>(quantity.Si, Quality.Assumed, [SourceOf(member)]);

        string SourceOf(string member) => own.SourceOf(member) is { } source ? $"{SubstanceResolution.OwnValueSource}: {source}" : SubstanceResolution.OwnValueSource;
    }

    private static Published? Cautious(Published? listed, Sourced<double>? own, bool highest)
    {
        if (own is null)
        {
            return listed;
        }

        if (listed is null)
        {
            return new Published(own, [own]);
        }

        bool stricter = highest ? own.Value > listed.Governing.Value : own.Value < listed.Governing.Value;
        return new Published(stricter ? own : listed.Governing, [.. listed.All, own]);
    }

    /// <summary>Inside its range only.</summary>
    private static Quantity? Boiling(AntoineEntry? antoine) =>
        antoine is { NormalBoilingPointK: { } boilingK, From: { } from, To: { } to } && boilingK >= from.Si && boilingK <= to.Si ? new Quantity(boilingK, "K") : null;

    /// <summary>As stated; else from melting and boiling point at 298.15 K; else liquid, which has a vapour and so is the cautious guess.</summary>
    private static Phase StateOf(SubstanceProperties own)
    {
        const double roomTemperatureK = 298.15;
        return own switch
        {
            { State: { } state } => state,
            { BoilingPoint: { } boiling } when boiling.Si < roomTemperatureK => Phase.Gas,
            { MeltingPoint: { } melting } when melting.Si > roomTemperatureK => Phase.Solid,
            _ => Phase.Liquid,
        };
    }
}
