using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Exploring;

/// <summary>Another liquid in place of a solvent, in the volume that was planned.</summary>
public sealed partial class ExploredDraft
{
    private const double CubicMetresPerML = 1e-6;

    private void Exchange(ProcedureDocument document, SolventSwap swap, bool isSolution)
    {
        MaterialEntry material = document.Materials[swap.Material];
        string row = Pointer("materials", swap.Material);
        Substance instead = swap.Instead;
        var reference = new JsonObject { ["name"] = instead.Identity.Name };
        if (instead.Identity.Cas is { } cas)
        {
            reference.Insert(0, "cas", JsonValue.Create(cas));
        }

        if (isSolution)
        {
            Set(row + "/solution", "solvent", $"solvent of {material.Id}", reference);
            return;
        }

        Set(row, "substance", $"substance of {material.Id}", reference);
        foreach (string member in OfTheOldBottle)
        {
            Set(row, member, $"{member switch { "openedOn" => "opening", "peroxideTest" => "peroxide test", _ => member }} of {material.Id}, which was that of the other liquid", null);
        }

        if (Documents.Planning.SubstanceResolution.Resolve(material.Substance!, Catalog.Default).Known is { } old)
        {
            SameVolume(row, $"amount of {material.Id}", material.Amount, old);
            for (int s = 0; s < document.Steps.Count; s++)
            {
                IReadOnlyList<MaterialUseEntry> uses = document.Steps[s].Materials ?? [];
                for (int u = 0; u < uses.Count; u++)
                {
                    if (string.Equals(uses[u].Id, material.Id, StringComparison.Ordinal))
                    {
                        SameVolume($"{Pointer("steps", s)}/materials/{u.ToString(CultureInfo.InvariantCulture)}", $"amount of {material.Id} in step {document.Steps[s].Id}", uses[u].Amount, old);
                    }
                }
            }
        }
    }

    private static IReadOnlyList<string> OfTheOldBottle { get; } = ["form", "openedOn", "peroxideTest"];

    /// <summary>A mass or an amount of substance becomes the volume that it had; a volume stays.</summary>
    private void SameVolume(string row, string label, Documents.Quantity? amount, Substance old)
    {
        double? massKg = amount?.ToAmount() switch
        {
            Amount.Mass mass => mass.Kg,
            Amount.Mol mol => mol.Moles * old.Identity.MolarMassKgPerMol,
            _ => null,
        };
        if (massKg / old.DensityKgPerM3?.Value is { } volumeM3)
        {
            Set(row, "amount", label, Quantity(Figures(volumeM3 / CubicMetresPerML), "mL"));
        }
    }
}
