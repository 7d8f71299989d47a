"""Writes Values/structures.tsv and Values/structure-groups.tsv: what RDKit and Open Babel say of structures that our reader must agree with.

Run: /usr/bin/python3 make_structure_values.py   (Debian packages python3-rdkit 202209.3-1 and openbabel 3.1.1)
Origins of the structures: our catalogue (identities.tsv), test structures of our pattern table (structure-patterns.tsv), structures
chosen by hand for what is hard to read, and an enumeration of substituents on scaffolds made here.
structures.tsv: formula, masses, rings and aromatic atoms come from RDKit; the column babel_formula says "same" where Open Babel gives
the same formula, else what it gives.
structure-groups.tsv: for each group of our table the numbers of the structures in which both find it, RDKit alone, and Open Babel alone.
Numbers count the rows of structures.tsv from 0.
"""
import itertools, os, re, subprocess, tempfile
from rdkit import Chem, RDLogger
from rdkit.Chem import Descriptors, rdMolDescriptors

RDLogger.DisableLog("rdApp.*")
here = os.path.dirname(os.path.abspath(__file__))
data = os.path.join(here, "../../../src/PreApproval.Hazards/Data")

SUBSTITUENTS = """C CC C(C)C C(C)(C)C C=C C#C F Cl Br I O OC N NC N(C)C C(=O)O C(=O)OC C(=O)C C=O C#N
[N+](=O)[O-] S SC S(=O)C S(=O)(=O)C S(=O)(=O)N C(F)(F)F NC(=O)C N=[N+]=[N-] B(O)O C(=O)Cl CO CN""".split()
ARENES = """c1ccc({0})cc1{1} c1cc({0})cc({1})c1 c1c({0})ccc({1})c1""".split()
RINGS = """c1ccnc({0})c1 c1cncc({0})c1 c1cc({0})ccn1 c1nccc({0})n1 c1cnc({0})cn1 c1ccc({0})nn1 c1cc({0})[nH]c1 c1cc({0})oc1 c1cc({0})sc1
c1c({0})[nH]cn1 c1c({0})ncn1C c1c({0})cn[nH]1 c1c({0})ocn1 c1c({0})scn1 c1nc({0})no1 c1nnc({0})[nH]1 c1nnnn1{0} c1ccc2c({0})cccc2c1 c1ccc2c(c1)c({0})c[nH]2
c1ccc2nc({0})ccc2c1 c1ccc2c(c1)c({0})ccn2 c1ccc2c(c1)oc({0})c2 c1ccc2c(c1)sc({0})c2 c1ccc2c(c1)nc({0})[nH]2 c1nc2c(n1{0})ncnc2 O=c1cc({0})cc[nH]1
O=c1ccoc({0})c1 O=c1[nH]cc({0})c(=O)[nH]1 C1=CC(=O)C=C({0})C1=O C1CCC({0})CC1 C1CC({0})C1 C1CC1{0} C1CCC({0})C1 C1COCC({0})O1 C1CCN({0})CC1 C1COCCN1{0}
C1CC2CCC1C2{0} C1=CCCC({0})C1 c1ccc2c(c1)Cc1cc({0})ccc1-2 c1ccc2cc3cc({0})ccc3cc2c1 c1ccc(-c2ccc({0})cc2)cc1 c1ccc(Cc2ccc({0})cc2)cc1 O=C1c2ccccc2C(=O)c2cc({0})ccc21
C1CC(=O)N({0})C1 C1CC(=O)OC1{0} O=C1C=CC(=O)N1{0}""".split()
CHAINS = """{0}CC{1} {0}CCC{1} {0}C(C)C{1} {0}CC=CC{1} {0}CC#CC{1}""".split()
SHORT = "C O OC N N(C)C C(=O)O C(=O)OCC C(=O)C C=O C#N [N+](=O)[O-] S SC Cl Br OO OC(C)=O N=C=O C(=O)N OS(C)(=O)=O".split()
SPECIAL = """c1cccc2cccc2c1 C1=CC2=CC=CC=CC2=C1 c1cccccc1=O O=c1cccccc1 C1=CC=C[CH+]C=C1 [cH-]1cccc1 [CH-]1C=CC=C1 c1cc[o+]cc1 c1cc[s+]cc1 C[n+]1ccccc1
c1cc2ccc3cccc4ccc(c1)c2c34 c1cc2ccc1CC2 C1=CC=CC=CC=C1 C1=CC=C1 C12C3C4C1C5C2C3C45 C1C2CC3CC1CC(C2)C3 c1ccc2c(c1)c1ccccc1c1ccccc21 c1ccc2c(c1)ccc1ccccc12
C1=CC=C2C=CC=C2C=C1 c1cc2cccc3c2c(c1)CC3 C1=Cc2cccc3cccc1c23 c1ccc2c(c1)-c1ccccc1-2 c1ccc-2c(c1)-c1ccccc1-2 O=C1C=CC(=O)c2ccccc12 c1ccc2c(c1)[nH]c1ccccc12 c1ccc2c(c1)Nc1ccccc1S2 c1ccc2c(c1)Oc1ccccc1O2 c1ccc2nc3ccccc3nc2c1
c1ccc2c(c1)nnn2 c1ccc2[nH]nnc2c1 c1nc[nH]n1 c1nn[nH]n1 c1cnoc1 c1cnsc1 c1nonc1 O=c1[nH]c(=O)c2[nH]cnc2[nH]1 Cn1c(=O)c2c(ncn2C)n(C)c1=O Nc1ncnc2c1ncn2 Nc1ncnc2nc[nH]c12
[O-][n+]1ccccc1 O=n1ccccc1 c1ccpcc1 c1ccbcc1 c1cc[se]c1 c1cc[te]c1 C1=C[Se]C=C1 B1NBNBN1 c1ccc2c(c1)C(=O)OC2=O CC1(C)C2CCC1(C)C(=O)C2 C1CC2CC1C=C2 C1=CC2CC1C1C=CCC21
OC1=CC=CC=C1C(=O)O CN1CCC[C@H]1c1cccnc1 C[C@@H](O)C(=O)O F/C=C/F F/C=C\\F OC[C@H]1OC(O)[C@H](O)[C@@H](O)[C@@H]1O CC(=O)Oc1ccccc1C(=O)O CC(C)Cc1ccc(cc1)C(C)C(=O)O
[13CH4] [2H]O[2H] [2H]C([2H])([2H])S(=O)C([2H])([2H])[2H] [15NH3] [18O]=C=[18O] C[C@](F)(Cl)Br c1ccc(cc1)P(c1ccccc1)c1ccccc1 O=P(c1ccccc1)(c1ccccc1)c1ccccc1 CS(C)=O C[S+](C)[O-] CN(=O)=O C[N+](=O)[O-]
N#[N+]c1ccccc1 CN=[N+]=[N-] CC(=O)C=[N+]=[N-] [Na+].[Cl-] [K+].[O-]Cl(=O)(=O)=O [Na]O [Na]OC CC[Mg]Br [Li]CCCC C[Si](C)(C)C F[P-](F)(F)(F)(F)F F[B-](F)(F)F [O-][N+](=O)c1ccccc1
c1ccc2c3ccccc3c3ccccc3c2c1 c1cc2cc3ccc(cc4ccc(cc5ccc(cc1n2)[nH]5)n4)[nH]3 C1=Cc2cc3ccc(cc4nc(cc5ccc(cc1n2)[nH]5)C=C4)[nH]3 C1CCC2(CC1)OCCO2 C1CC12CC2 C1CC2CC12 C1OCOCO1 CC1OC(C)OC(C)O1
O=C1OC(=O)c2cc3C(=O)OC(=O)c3cc12 c1csc(c1)-c1cccs1 c1c[nH]c(c1)-c1ccc[nH]1 C=C1C=CC=C1 C1=CC(=C2C=CC=C2)C=C1 O=C1C=CC=C1 O=C1C=CCC1 N=c1cc[nH]cc1 S=c1cc[nH]cc1 C=c1cc[nH]cc1 S=c1sccs1 O=c1occo1
C1=CC=NC=C1 N1C=CC=C1 O1C=CC=C1 S1C=CC=C1 c1cn2cccc2c1 c1ccn2cccc2c1 c1ccn2ccnc2c1 c1cnc2ncccc2n1 c1nc2cncnc2[nH]1 c1ncc2ncnc-2[nH]1 C1=NCCN1 C1CN2CCC1CC2 C1N2CN3CN1CN(C2)C3
CC(C)(C#N)N=NC(C)(C)C#N OOC(C)(C)C CC(=O)OO O=C(OOC(=O)c1ccccc1)c1ccccc1 CC1(C)OOC(C)(C)OO1 C1OOCN2COOCN1COOC2 ClC(Cl)(Cl)OC(=O)OC(Cl)(Cl)Cl N#CC=O O=C=O S=C=S C#N [C-]#[O+] N#N [O-][O+]=O
OS(=O)(=O)O OCl(=O)(=O)=O O=[N+]([O-])O ClP(Cl)(Cl)(Cl)Cl FS(F)(F)(F)(F)F ClS(Cl)=O O=P(Cl)(Cl)Cl CP(C)(C)=C C[P+](C)(C)C C[As](C)C c1ccc([As](c2ccccc2)c2ccccc2)cc1 CI(=O)=O O=I(=O)c1ccccc1C(=O)O""".replace("\n", " ").split()


def column(path, name):
    rows = [l.rstrip("\n").split("\t") for l in open(path, encoding="utf-8") if l.strip() and not l.startswith("#")]
    return [r[rows[0].index(name)] for r in rows[1:]]


def structures():
    for s in column(os.path.join(data, "identities.tsv"), "smiles"):
        yield "catalogue", s
    table = os.path.join(data, "structure-patterns.tsv")
    if os.path.exists(table):
        for name in ("present_in", "absent_from"):
            for cell in column(table, name):
                for s in cell.split():
                    yield "patterns", s
    for s in SPECIAL:
        yield "special", s
    for template in ARENES:
        for a, b in itertools.combinations_with_replacement(SUBSTITUENTS, 2):
            yield "enumerated", template.format(a, b)
    for template in RINGS:
        for a in SUBSTITUENTS[:26]:
            yield "enumerated", template.format(a)
    for template in CHAINS:
        for a, b in itertools.product(SHORT, SHORT):
            # the first group is written backwards from its own end: only those that read the same may begin a chain
            if a in ("C", "O", "N", "S", "Cl", "Br"):
                yield "enumerated", template.format(a, b)


def babel(smiles, *options):
    """Runs Open Babel over numbered structures and gives its lines of text."""
    with tempfile.NamedTemporaryFile("w", suffix=".smi", encoding="utf-8") as f:
        f.write("".join(f"{s}\t{i}\n" for i, s in enumerate(smiles)))
        f.flush()
        return subprocess.run(["obabel", "-ismi", f.name, "-otxt", *options], capture_output=True, text=True, check=False).stdout.splitlines()


def babel_formulas(smiles):
    return {int(line.split()[0]): counts(re.sub(r"[+-]+$", "", line.split()[1])) for line in babel(smiles, "--append", "formula") if line.strip()}


def counts(formula):
    found = {}
    for element, number in re.findall(r"([A-Z][a-z]?)(\d*)", formula):
        element = "H" if element in ("D", "T") else element
        found[element] = found.get(element, 0) + int(number or 1)
    return found


def groups():
    rows = [l.rstrip("\n").split("\t") for l in open(os.path.join(data, "structure-patterns.tsv"), encoding="utf-8")]
    heading = rows[0]
    for row in rows[1:]:
        yield tuple(row[heading.index(c)].split() if c != "name" else row[heading.index(c)] for c in ("name", "patterns", "unless"))


def write_groups(smiles, molecules):
    by_babel = {}
    lines = []
    for name, patterns, unless in groups():
        def with_rdkit(m):
            return any(m.HasSubstructMatch(Chem.MolFromSmarts(p)) for p in patterns) and not any(m.HasSubstructMatch(Chem.MolFromSmarts(p)) for p in unless)
        for p in patterns + unless:
            if p not in by_babel:
                by_babel[p] = {int(n) for n in babel(smiles, "-s", p) if n.strip()}
        rdkit = {i for i, m in enumerate(molecules) if with_rdkit(m)}
        other = set().union(*(by_babel[p] for p in patterns)) - set().union(*(by_babel[p] for p in unless))
        lines.append("\t".join([name, *(" ".join(map(str, sorted(part))) for part in (rdkit & other, rdkit - other, other - rdkit))]))
    with open(os.path.join(here, "../Values/structure-groups.tsv"), "w", encoding="utf-8") as f:
        f.write("# found with RDKit 2022.09.3 (Debian 202209.3-1) and Open Babel 3.1.1 in the rows of structures.tsv; script Structures/make_structure_values.py\n")
        f.write("group\tboth\trdkit_only\tbabel_only\n")
        f.write("\n".join(lines) + "\n")


def main():
    seen, rows, molecules = set(), [], []
    for origin, smiles in structures():
        if not smiles or smiles in seen or "*" in smiles:
            continue
        seen.add(smiles)
        mol = Chem.MolFromSmiles(smiles)
        if mol is None:
            print("RDKit does not read", smiles)
            continue
        molecules.append(mol)
        rows.append([smiles, origin, hill(mol), f"{Descriptors.MolWt(mol):.4f}", f"{Descriptors.ExactMolWt(mol):.5f}",
                     str(mol.GetNumBonds() - mol.GetNumAtoms() + len(Chem.GetMolFrags(mol))),
                     str(sum(a.GetIsAromatic() for a in mol.GetAtoms())),
                     Chem.MolToSmiles(mol, doRandom=True), kekule(mol)])
    formulas = babel_formulas([r[0] for r in rows])
    for i, row in enumerate(rows):
        row.append("same" if formulas[i] == counts(row[2]) else "".join(f"{e}{n}" for e, n in sorted(formulas[i].items())))
    path = os.path.join(here, "../Values/structures.tsv")
    with open(path, "w", encoding="utf-8") as f:
        f.write("# computed with RDKit 2022.09.3 (Debian 202209.3-1) and Open Babel 3.1.1; script Structures/make_structure_values.py\n")
        f.write("smiles\torigin\tformula\tmolar_mass\tmonoisotopic_mass\trings\taromatic_atoms\trandom_spelling\tkekule_spelling\tbabel_formula\n")
        for r in rows:
            f.write("\t".join(r) + "\n")
    write_groups([r[0] for r in rows], molecules)
    print(len(rows), "structures")


def kekule(mol):
    copy = Chem.Mol(mol)
    Chem.Kekulize(copy, clearAromaticFlags=True)
    return Chem.MolToSmiles(copy, kekuleSmiles=True, doRandom=True)


def hill(mol):
    counts = {}
    for a in mol.GetAtoms():
        symbol = "D" if a.GetAtomicNum() == 1 and a.GetIsotope() == 2 else a.GetSymbol()
        counts[symbol] = counts.get(symbol, 0) + 1
        if a.GetTotalNumHs():
            counts["H"] = counts.get("H", 0) + a.GetTotalNumHs()
    first = [s for s in ("C", "H") if s in counts] if "C" in counts else []
    order = first + sorted(s for s in counts if s not in first)
    return "".join(s + (str(counts[s]) if counts[s] > 1 else "") for s in order)


main()
