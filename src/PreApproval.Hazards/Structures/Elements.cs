using System.Collections.Frozen;

namespace PreApproval.Hazards.Structures;

/// <summary>What reading a structure needs to know of the elements.</summary>
/// <remarks>
/// Valences: OpenSMILES specification 1.0, section 3.1.5. Masses of the most abundant isotope in g/mol: Wang et al., Chinese Physics C
/// 41 (2017) 030003 (AME2016), doi:10.1088/1674-1137/41/3/030003, rounded to 10⁻⁷ or better for the elements of organic chemistry.
/// </remarks>
internal static class Elements
{
    public const int Hydrogen = 1;
    public const int Boron = 5;
    public const int Carbon = 6;
    public const int Nitrogen = 7;
    public const int Oxygen = 8;
    public const int Fluorine = 9;
    public const int Silicon = 14;
    public const int Phosphorus = 15;
    public const int Sulfur = 16;
    public const int Chlorine = 17;
    public const int Arsenic = 33;
    public const int Selenium = 34;
    public const int Bromine = 35;
    public const int Tellurium = 52;
    public const int Iodine = 53;

    private static readonly string[] Names =
        ("* H He Li Be B C N O F Ne Na Mg Al Si P S Cl Ar K Ca Sc Ti V Cr Mn Fe Co Ni Cu Zn Ga Ge As Se Br Kr Rb Sr Y Zr Nb Mo Tc Ru Rh Pd Ag Cd In Sn Sb Te I Xe " +
         "Cs Ba La Ce Pr Nd Pm Sm Eu Gd Tb Dy Ho Er Tm Yb Lu Hf Ta W Re Os Ir Pt Au Hg Tl Pb Bi Po At Rn Fr Ra Ac Th Pa U Np Pu Am Cm Bk Cf Es Fm Md No Lr Rf Db Sg Bh " +
         "Hs Mt Ds Rg Cn Nh Fl Mc Lv Ts Og").Split(' ');

    private static readonly FrozenDictionary<string, int> Numbers =
        Names.Skip(1).Select((name, index) => (name, index)).ToFrozenDictionary(e => e.name, e => e.index + 1, StringComparer.Ordinal);

    private static readonly FrozenDictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> NumbersBySpan = Numbers.GetAlternateLookup<ReadOnlySpan<char>>();

    // of the most abundant isotope, from hydrogen to bismuth; 0 where none is stable
    private static readonly double[] Masses =
    [
        0, 1.00782503223, 4.00260325413, 7.0160034366, 9.012183065, 11.00930536, 12, 14.00307400443, 15.99491461957, 18.99840316273, 19.9924401762,
        22.989769282, 23.985041697, 26.98153853, 27.97692653465, 30.97376199842, 31.9720711744, 34.968852682, 39.9623831237, 38.9637064864, 39.962590863,
        44.95590828, 47.94794198, 50.94395704, 51.94050623, 54.93804391, 55.93493633, 58.93319429, 57.93534241, 62.92959772, 63.92914201,
        68.9255735, 73.921177761, 74.92159457, 79.9165218, 78.9183376, 83.9114977282, 84.9117897379, 87.9056125, 88.9058403, 89.9046977,
        92.906373, 97.90540482, 0, 101.9043441, 102.905498, 105.9034804, 106.9050916, 113.90336509, 114.903878776, 119.90220163,
        120.903812, 129.906222748, 126.9044719, 131.9041550856, 132.905451961, 137.905247, 138.9063563, 139.9054431, 140.9076576, 141.907729,
        0, 151.9197397, 152.921238, 157.9241123, 158.9253547, 163.9291819, 164.9303288, 165.9302995, 168.9342179, 173.9388664,
        174.9407752, 179.946557, 180.9479958, 183.95093092, 186.9557501, 191.961477, 192.9629216, 194.9647917, 196.96656879, 201.9706434,
        204.9744278, 207.9766525, 208.9803991,
    ];

    private static readonly FrozenDictionary<(int, int), double> IsotopeMasses = new Dictionary<(int, int), double>
    {
        [(1, 1)] = 1.00782503223,
        [(1, 2)] = 2.01410177812,
        [(1, 3)] = 3.0160492779,
        [(6, 12)] = 12,
        [(6, 13)] = 13.00335483507,
        [(6, 14)] = 14.0032419884,
        [(7, 14)] = 14.00307400443,
        [(7, 15)] = 15.00010889888,
        [(8, 16)] = 15.99491461957,
        [(8, 17)] = 16.9991317565,
        [(8, 18)] = 17.99915961286,
        [(16, 34)] = 33.967867004,
        [(16, 35)] = 34.96903231,
    }.ToFrozenDictionary();

    public static string Symbol(int element) => Names[element];

    /// <summary>Atomic number of a symbol, 0 when there is no such element.</summary>
    public static int Number(ReadOnlySpan<char> symbol) => NumbersBySpan.TryGetValue(symbol, out var number) ? number : 0;

    /// <summary>Mass in g/mol of the isotope, or of the most abundant one for isotope 0; null when not on file.</summary>
    public static double? IsotopicMass(int element, int isotope) => isotope == 0
        ? element < Masses.Length && Masses[element] > 0 ? Masses[element] : null
        : IsotopeMasses.TryGetValue((element, isotope), out var mass) ? mass : null;

    /// <summary>Whether the element may be written without brackets (OpenSMILES 3.1.5).</summary>
    public static bool IsOrganicSubset(int element) =>
        element is Boron or Carbon or Nitrogen or Oxygen or Fluorine or Phosphorus or Sulfur or Chlorine or Bromine or Iodine;

    /// <summary>Whether the element may be written in lower case as an aromatic atom.</summary>
    public static bool IsAromaticSymbol(int element) =>
        element is Boron or Carbon or Nitrogen or Oxygen or Phosphorus or Sulfur or Arsenic or Selenium or Tellurium;

    public static bool IsAlkaliMetal(int element) => element is 3 or 11 or 19 or 37 or 55;

    /// <summary>A metal or half-metal that makes salts, organometallic compounds or alloys (Al and Sn among them, B, Si, Ge, As, Sb, Te not).</summary>
    public static bool IsMetal(int element) =>
        element is 3 or 4 or (>= 11 and <= 13) or (>= 19 and <= 31) or (>= 37 and <= 50) or (>= 55 and <= 84) or >= 87;

    /// <summary>Allowed sums of bond orders and hydrogens for an uncharged atom; empty when any is allowed (metals, noble gases).</summary>
    public static ReadOnlySpan<byte> Valences(int element) => element switch
    {
        Hydrogen => [1],
        Boron => [3],
        Carbon or Silicon or 32 => [4],
        Nitrogen => [3, 5],
        Oxygen => [2],
        Fluorine => [1],
        Phosphorus or Arsenic => [3, 5],
        Sulfur or Selenium or Tellurium => [2, 4, 6],
        Chlorine or Bromine or Iodine => [1, 3, 5, 7],
        _ => [],
    };

    /// <summary>
    /// Allowed sums for a charged atom: those of the element with as many electrons (N⁺ as C, O⁻ as F, B⁻ as C). Beyond the first
    /// two periods an anion may take up more partners (PF6⁻, SiF6²⁻, ICl2⁻).
    /// </summary>
    public static int HighestValence(int element, int charge)
    {
        var own = Valences(element);
        if (own.IsEmpty)
        {
            return int.MaxValue;
        }

        var highest = own[^1];
        return element switch
        {
            Hydrogen => charge == 0 ? 1 : 0,
            Boron => 3 - charge,
            Carbon => 4 - Math.Abs(charge),
            Nitrogen => charge switch { 0 => 5, > 0 => 5 - charge, _ => 3 + charge },
            Oxygen or Fluorine => charge switch { > 0 => own[0] + charge, _ => own[0] + charge },
            _ => charge < 0 ? highest - charge : highest,
        };
    }

    /// <summary>Ordinary valence of an atom in an aromatic ring: the lowest of the element with as many electrons.</summary>
    public static int HighestOrdinary(int element, int charge) => element switch
    {
        Boron => 3 - charge,
        Carbon or Silicon => 4 - Math.Abs(charge),
        Nitrogen or Phosphorus => 3 + charge,
        Oxygen or Sulfur or Selenium or Tellurium => 2 + charge,
        _ => 0,
    };

    /// <summary>Whether one element draws electrons more than another: further right in the periodic table, or above it in the same group.</summary>
    public static bool IsMoreElectronegative(int element, int than)
    {
        var (group, other) = (Group(element), Group(than));
        return group > other || (group == other && element < than);
    }

    private static int Group(int element) => element switch
    {
        Boron => 3,
        Carbon or Silicon or 32 => 4,
        Nitrogen or Phosphorus or Arsenic => 5,
        Oxygen or Sulfur or Selenium or Tellurium => 6,
        Fluorine or Chlorine or Bromine or Iodine => 7,
        _ => 1,
    };
}
