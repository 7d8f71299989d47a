using System.Diagnostics.CodeAnalysis;

namespace PreApproval.Hazards.Structures;

/// <summary>
/// Reads structures written in OpenSMILES: organic subset, brackets, charges, isotopes, ring closures, branches, aromatic atoms,
/// salts. Stereo marks are kept for comparing structures; nothing else depends on them.
/// </summary>
/// <remarks>
/// Source: OpenSMILES specification, version 1.0 (2016), opensmiles.org. What is not read, and why: the wildcard * and reactions
/// (no formula follows from them); an uncharged nitrogen with four bonds (nearly always a forgotten charge); more than
/// <see cref="MaximumLength"/> characters or <see cref="MaximumAtoms"/> atoms. Time grows with the length of the text and the number
/// of rings, both bounded. See docs/methods/structures.md.
/// </remarks>
public static class SmilesReader
{
    /// <summary>Longest text that is read.</summary>
    public const int MaximumLength = 2000;

    /// <summary>Most atoms, hydrogens counted on other atoms aside.</summary>
    public const int MaximumAtoms = 500;

    /// <summary>Most rings (bonds − atoms + parts).</summary>
    public const int MaximumRings = 60;

    /// <summary>Reads a structure, or says at which character it cannot be read.</summary>
    public static bool TryRead(string smiles, [NotNullWhen(true)] out Molecule? molecule, [NotNullWhen(false)] out StructureError? error)
    {
        ArgumentNullException.ThrowIfNull(smiles);
        molecule = null;
        if (smiles.Length > MaximumLength)
        {
            error = new StructureError(MaximumLength, $"the text has {smiles.Length} characters; structures up to {MaximumLength} are read");
            return false;
        }

        if (!TryDraft(smiles, out var draft, out error))
        {
            return false;
        }

        if (RingSet.Of(draft) is not { } rings || !Aromaticity.TryPerceive(draft, rings))
        {
            error = new StructureError(FirstRingAtom(draft), $"the rings are too many or too entangled; up to {MaximumRings} are read");
            return false;
        }

        molecule = Finish(draft, rings);
        return true;
    }

    /// <summary>
    /// The formula alone, with every fault of spelling and valence but without rings: what a list of a thousand structures is checked by.
    /// </summary>
    internal static bool TryReadFormula(string smiles, [NotNullWhen(true)] out string? formula, [NotNullWhen(false)] out StructureError? error)
    {
        formula = null;
        if (!TryDraft(smiles, out var draft, out error))
        {
            return false;
        }

        formula = Molecule.FormulaOf(draft.Atoms.AsSpan(0, draft.AtomCount));
        return true;
    }

    private static bool TryDraft(string smiles, out MoleculeDraft draft, [NotNullWhen(false)] out StructureError? error)
    {
        draft = new MoleculeDraft();
        error = new SmilesParser(smiles, draft).Read();
        if (error is not null)
        {
            return false;
        }

        draft.Connect();
        draft.CountWrittenHydrogens();
        RingBonds.Mark(draft);
        error = HydrogenCount.OnAromaticAtoms(draft)
            ?? Kekulisation.Assign(draft)
            ?? HydrogenCount.OnOtherAtoms(draft);
        if (error is not null)
        {
            return false;
        }

        ChargeForms.Normalise(draft);
        error = HydrogenCount.Check(draft);
        return error is null;
    }

    private static int FirstRingAtom(MoleculeDraft draft)
    {
        var bond = Array.FindIndex(draft.Bonds, 0, draft.BondCount, static b => b.InRing);
        return draft.Atoms[draft.Bonds[bond].First].Position;
    }

    private static Molecule Finish(MoleculeDraft draft, RingSet rings)
    {
        var atoms = new Atom[draft.AtomCount];
        for (var a = 0; a < atoms.Length; a++)
        {
            ref readonly var d = ref draft.Atoms[a];
            atoms[a] = new Atom(d.Element, d.Charge, d.Isotope, d.Hydrogens, d.Aromatic, (short)d.Position);
        }

        var bonds = new Bond[draft.BondCount];
        for (var b = 0; b < bonds.Length; b++)
        {
            ref readonly var d = ref draft.Bonds[b];
            bonds[b] = new Bond((short)d.First, (short)d.Second, d.Order, d.Aromatic, d.InRing);
        }

        return new Molecule(atoms, bonds, draft.FirstNeighbour, draft.Neighbours, rings, StereoMarks.From(draft));
    }
}
