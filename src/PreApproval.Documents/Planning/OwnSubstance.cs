using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Planning;

/// <summary>Adds the group's own values where the catalogue has none; a published value is never replaced.</summary>
internal static class OwnSubstance
{
    public static Substance Complete(Substance? listed, SubstanceReference reference, SubstanceProperties own)
    {
        Substance substance = listed ?? new Substance
        {
            Identity = new Identity { Cas = reference.Cas, Name = reference.Name ?? reference.Cas ?? reference.Smiles ?? "", Smiles = reference.Smiles },
            PhaseAt298K = StateOf(own),
        };
        IReadOnlyList<string> sources = [own.Source is null ? SubstanceResolution.OwnValueSource : $"{SubstanceResolution.OwnValueSource}: {own.Source}"];
        return substance with
        {
            Identity = substance.Identity with
            {
                Formula = substance.Identity.Formula ?? own.Formula,
                MolarMassKgPerMol = substance.Identity.MolarMassKgPerMol ?? own.MolarMass?.Si,
            },
            MeltingPointK = substance.MeltingPointK ?? Value(own.MeltingPoint),
            BoilingPointK = substance.BoilingPointK ?? Value(own.BoilingPoint),
            DensityKgPerM3 = substance.DensityKgPerM3 ?? Value(own.Density),
            FlashPointK = substance.FlashPointK ?? Only(own.FlashPoint),
            AutoignitionK = substance.AutoignitionK ?? Only(own.Autoignition),
            LowerFlammableLimit = substance.LowerFlammableLimit ?? Only(own.LowerFlammableLimit),
            UpperFlammableLimit = substance.UpperFlammableLimit ?? Only(own.UpperFlammableLimit),
        };

        Sourced<double>? Value(Quantity? quantity) => quantity is null ? null : new Sourced<double>(quantity.Si, Quality.Assumed, sources);

        Published? Only(Quantity? quantity) => Value(quantity) is { } value ? new Published(value, [value]) : null;
    }

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
