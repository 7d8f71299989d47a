using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Substances;

/// <summary>Rows of identities: CAS number, name, synonyms, formula, molar mass, structure, state of matter.</summary>
internal static class IdentityRows
{
    public const string Heading = "cas\tname\tsynonyms\tformula\tmolar_mass_g_per_mol\tsmiles\tphase_at_298K\tinvolatile";
    public const int Cas = 0;
    public const int Synonyms = 2;
    private const int Name = 1;
    private const int FormulaColumn = 3;
    private const int MolarMass = 4;
    private const int Smiles = 5;
    private const int PhaseColumn = 6;
    private const int Involatile = 7;

    public static void Read(TsvRow row, CatalogDraft catalog)
    {
        var cas = row.Optional(Cas);
        if (!CasNumber.IsValid(cas))
        {
            catalog.Faults.Add(row.Fault(Cas, "is no CAS number (check digit); give two to seven digits, two digits and the check digit"));
            return;
        }

        if (row.Optional(Name) is not { } name)
        {
            catalog.Faults.Add(row.Fault(Name, "give the name chemists use most"));
            return;
        }

        var formula = row.Optional(FormulaColumn);
        var smiles = row.Optional(Smiles);
        var mass = ReadFormula(row, formula, smiles, catalog.Faults);
        var phase = row.Cell(PhaseColumn) switch { "gas" => Phase.Gas, "liquid" => Phase.Liquid, "solid" => Phase.Solid, _ => (Phase)(-1) };
        if (phase < Phase.Gas)
        {
            catalog.Faults.Add(row.Fault(PhaseColumn, "give gas, liquid or solid"));
        }

        if (row.Cell(Involatile) is not ("yes" or "no"))
        {
            catalog.Faults.Add(row.Fault(Involatile, "give yes or no"));
        }

        catalog.Add(new SubstanceDraft
        {
            Identity = new Identity
            {
                Cas = cas,
                Name = name,
                Synonyms = row.Optional(Synonyms)?.Split(';') ?? [],
                Formula = formula,
                MolarMassKgPerMol = mass,
                Smiles = smiles,
            },
            Phase = phase,
            Involatile = row.Cell(Involatile) is "yes",
            Row = row,
        });
    }

    private static double? ReadFormula(TsvRow row, string? formula, string? smiles, List<string> faults)
    {
        if (formula is null)
        {
            return null;
        }

        if (!Formula.TryReadHill(formula, out var mass))
        {
            faults.Add(row.Fault(FormulaColumn, $"is no formula in Hill order{(Formula.InHillOrder(formula) is { } hill ? $"; give {hill}" : "")}"));
            return null;
        }

        if (!row.TryNumber(MolarMass, out var stated) || !(Math.Abs((mass * 1000) - stated) <= 1e-3))
        {
            faults.Add(row.Fault(MolarMass, FormattableString.Invariant($"the molar mass of {formula} is {mass * 1000:0.0000} g/mol")));
        }

        if (smiles is not null)
        {
            CheckStructure(row, formula, smiles, faults);
        }

        return mass;
    }

    private static void CheckStructure(TsvRow row, string formula, string smiles, List<string> faults)
    {
        if (!SmilesReader.TryReadFormula(smiles, out var drawn, out var error))
        {
            faults.Add(row.Fault(Smiles, $"is no SMILES; character {error.Position + 1}: {error.Message}"));
        }
        else if (!string.Equals(drawn, formula, StringComparison.Ordinal))
        {
            faults.Add(row.Fault(Smiles, $"is a structure of {drawn}; the formula is {formula}"));
        }
    }
}
