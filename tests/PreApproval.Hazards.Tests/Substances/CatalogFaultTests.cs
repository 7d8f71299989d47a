using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Substances;

/// <summary>A data file with a fault is refused, with the file, the line, the column and what would be right.</summary>
public sealed class CatalogFaultTests
{
    private const string Heading = "cas\tname\tsynonyms\tformula\tmolar_mass_g_per_mol\tsmiles\tphase_at_298K\tinvolatile\n";
    private const string Ethanol = "64-17-5\tethanol\t\tC2H6O\t46.069\tCCO\tliquid\tno\n";
    private const string Values = "cas\tquantity\tvalue\tunit\tconditions\tquality\tsource\tgoverns\tnote\n";
    private const string BoilingPoint = "64-17-5\tboiling point\t351.4\tK\t101325 Pa\tmeasured\tbook\tyes\t\n";
    private const string Correlations = "cas\tquantity\tform\tcoefficients\tminimum_K\tmaximum_K\tunit\tquality\tsource\tpreference\n";
    private const string Assignments = "cas\tsubgroups\tsource\tquality\n";

    [Fact]
    public void Read_SoundFiles_HasNoFaults() => Assert.Empty(Faults());

    [Theory]
    [InlineData("64-17-6\tethanol\t\tC2H6O\t46.069\tCCO\tliquid\tno\n", "line 2, column cas: '64-17-6'; is no CAS number (check digit)")]
    [InlineData("64-17-5\t\t\tC2H6O\t46.069\tCCO\tliquid\tno\n", "line 2, column name: blank; give the name")]
    [InlineData("64-17-5\tethanol\t\tC2H6O\t46.5\tCCO\tliquid\tno\n", "line 2, column molar_mass_g_per_mol: '46.5'; the molar mass of C2H6O is 46.0690 g/mol")]
    [InlineData("64-17-5\tethanol\t\tC2H6O\t\tCCO\tliquid\tno\n", "line 2, column molar_mass_g_per_mol: blank; the molar mass of C2H6O is 46.0690 g/mol")]
    [InlineData("64-17-5\tethanol\t\tH6C2O\t46.069\tCCO\tliquid\tno\n", "line 2, column formula: 'H6C2O'; is no formula in Hill order; give C2H6O")]
    [InlineData("64-17-5\tethanol\t\tC2H6O1\t46.069\tCCO\tliquid\tno\n", "line 2, column formula: 'C2H6O1'; is no formula in Hill order; give C2H6O")]
    [InlineData("64-17-5\tethanol\t\tC2H6O\t46.069\tCCCO\tliquid\tno\n", "line 2, column smiles: 'CCCO'; is a structure of C3H8O; the formula is C2H6O")]
    [InlineData("64-17-5\tethanol\t\tC2H6O\t46.069\tCC(Zz)O\tliquid\tno\n", "line 2, column smiles: 'CC(Zz)O'; is no SMILES")]
    [InlineData("64-17-5\tethanol\t\tC2H6O\t46.069\tCCO\twet\tno\n", "line 2, column phase_at_298K: 'wet'; give gas, liquid or solid")]
    [InlineData("64-17-5\tethanol\t\tC2H6O\t46.069\tCCO\tliquid\t\n", "line 2, column involatile: blank; give yes or no")]
    [InlineData("64-17-5\tethanol\tC2H6O\t46.069\tCCO\tliquid\tno\n", "line 2: 7 cells, 8 columns")]
    public void Read_WrongIdentity_IsAFault(string row, string expected) =>
        Assert.StartsWith("Data/identities.tsv, " + expected, Assert.Single(Faults(identity: row, values: "", correlations: "", assignments: "")), StringComparison.Ordinal);

    [Fact]
    public void Read_CasNumberTwice_IsAFault() => Assert.Contains(
        Faults(identity: Ethanol + "64-17-5\tspirit\t\tC2H6O\t46.069\tCCO\tliquid\tno\n"),
        f => f.StartsWith("Data/identities.tsv, line 3, column cas: '64-17-5'; is listed twice, first in line 2", StringComparison.Ordinal));

    [Theory]
    [InlineData("spirit;EtOH", "wood spirit;Et-OH")]
    [InlineData("methanol", "")]
    public void Read_NameOfTwoSubstances_IsAFault(string ofEthanol, string ofMethanol)
    {
        var fault = Assert.Single(Faults(identity: $"64-17-5\tethanol\t{ofEthanol}\tC2H6O\t46.069\tCCO\tliquid\tno\n67-56-1\tmethanol\t{ofMethanol}\tCH4O\t32.042\tCO\tliquid\tno\n"));
        Assert.Contains("column synonyms: '", fault, StringComparison.Ordinal);
        Assert.Contains("line 2", fault, StringComparison.Ordinal);
        Assert.Contains("line 3", fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t101325 Pa\tmeasured\t\tyes\t\n", "column source: blank; give the key of an entry in sources.bib")]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t101325 Pa\tmeasured\tpaper\tyes\t\n", "column source: 'paper'; give the key of an entry in sources.bib")]
    [InlineData("64-17-5\tboiling point\t351.4\t\t101325 Pa\tmeasured\tbook\tyes\t\n", "column unit: blank; the unit of boiling point is K")]
    [InlineData("64-17-5\tboiling point\t78.3\t°C\t101325 Pa\tmeasured\tbook\tyes\t\n", "column unit: '°C'; the unit of boiling point is K")]
    [InlineData("64-17-5\tflash point\t13\tK\tair, 101325 Pa\tmeasured\tbook\tyes\t\n", "column value: '13'; give a number from 120 to 800")]
    [InlineData("64-17-5\tlower flammable limit\t3.1\t1\tair, 101325 Pa\tmeasured\tbook\tyes\t\n", "column value: '3.1'; give a number from 0.001 to 1")]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t\tmeasured\tbook\tyes\t\n", "column conditions: blank; give the conditions the value holds for")]
    [InlineData("64-17-5\tdensity\t789\tkg/m3\t20 °C\tmeasured\tbook\tyes\t\n", "column conditions: '20 °C'; give the temperature of the density, for instance 298.15 K")]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t101325 Pa\t\tbook\tyes\t\n", "column quality: blank; give measured, correlated, estimated or assumed")]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t101325 Pa\t0\tbook\tyes\t\n", "column quality: '0'; give measured, correlated, estimated or assumed")]
    [InlineData("64-17-5\tboiling point\t78,3\tK\t101325 Pa\tmeasured\tbook\tyes\t\n", "column value: '78,3'; give a number from 4 to 6500 with a decimal point")]
    [InlineData("64-17-5\tboiling heat\t351.4\tK\t101325 Pa\tmeasured\tbook\tyes\t\n", "column quantity: 'boiling heat'; give one of: melting point, boiling point")]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t101325 Pa\tmeasured\tbook\t\t\n", "column governs: blank; give yes or no")]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t101325 Pa\tmeasured\tbook\tno\t\n", "column note: blank; say why the value does not govern")]
    [InlineData("67-56-1\tboiling point\t337.7\tK\t101325 Pa\tmeasured\tbook\tyes\t\n", "column cas: '67-56-1'; is not among the identities")]
    public void Read_WrongValue_IsAFault(string row, string expected) =>
        Assert.Contains(Faults(values: row), f => f.StartsWith("Data/values/book.tsv, line 2, " + expected, StringComparison.Ordinal));

    // Ethanol boils at 351.4 K (CRC Handbook, 95th edition); the rows below contradict it or each other.
    [Theory]
    [InlineData("64-17-5\tboiling point\t361.4\tK\t101325 Pa\tmeasured\tbook\tyes\t\n", "line 2, column value: '361.4'; the boiling point of ethanol and its preferred vapour pressure (book) differ by more than 2 K")]
    [InlineData("64-17-5\tboiling point\t354.0\tK\t101325 Pa\tmeasured\tbook\tyes\t\n", "differ by more than 2 K")]
    [InlineData(BoilingPoint + "64-17-5\tflash point\t360\tK\tair, 101325 Pa\tmeasured\tbook\tyes\t\n", "line 3, column value: '360'; the flash point of ethanol lies above its boiling point (351.4 K)")]
    [InlineData(BoilingPoint + "64-17-5\tlower flammable limit\t0.19\t1\tair, 101325 Pa\tmeasured\tbook\tyes\t\n64-17-5\tupper flammable limit\t0.19\t1\tair, 101325 Pa\tmeasured\tbook\tyes\t\n", "line 3, column value: '0.19'; the lower flammable limit of ethanol is not below the upper (0.19)")]
    [InlineData(BoilingPoint + "64-17-5\tcritical temperature\t351\tK\tcritical point\tmeasured\tbook\tyes\t\n", "line 3, column value: '351'; the critical temperature of ethanol is not above its boiling point (351.4 K)")]
    public void Read_ValuesThatContradict_IsAFault(string rows, string expected) =>
        Assert.Contains(Faults(values: rows), f => f.StartsWith("Data/values/book.tsv, ", StringComparison.Ordinal) && f.Contains(expected, StringComparison.Ordinal));

    [Theory]
    [InlineData("64-17-5\tboiling point\t353.0\tK\t101325 Pa\tmeasured\tbook\tyes\t\n")]
    [InlineData("64-17-5\tboiling point\t350.0\tK\t101325 Pa\tmeasured\tbook\tyes\t\n")]
    public void Read_BoilingPointWithin2KOfVapourPressure_IsNoFault(string row) => Assert.Empty(Faults(values: row));

    [Theory]
    [InlineData("antoine-ln\t23.58\t280\t370\tPa\tcorrelated\tbook\t1", "column coefficients: '23.58'; antoine-ln takes 3 numbers with spaces between them")]
    [InlineData("antoine-ln\t23.58 3674.49 -46,702\t280\t370\tPa\tcorrelated\tbook\t1", "column coefficients")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702 1\t280\t370\tPa\tcorrelated\tbook\t1", "column coefficients")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702\t\t370\tPa\tcorrelated\tbook\t1", "column minimum_K: blank; give the lowest temperature of the range in K")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702\t280\t\tPa\tcorrelated\tbook\t1", "column maximum_K: blank; give the highest temperature of the range in K")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702\t370\t280\tPa\tcorrelated\tbook\t1", "column maximum_K: '280'; give the highest temperature of the range in K, above the lowest (370)")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702\t280\t370\tbar\tcorrelated\tbook\t1", "column unit: 'bar'; the unit of antoine-ln is Pa")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702\t280\t370\t\tcorrelated\tbook\t1", "column unit: blank; the unit of antoine-ln is Pa")]
    [InlineData("antoine\t23.58 3674.49 -46.702\t280\t370\tPa\tcorrelated\tbook\t1", "column form: 'antoine'; give a form of vapour pressure: wagner25")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702\t280\t370\tPa\t\tbook\t1", "column quality: blank")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702\t280\t370\tPa\tcorrelated\t\t1", "column source: blank")]
    [InlineData("antoine-ln\t23.58 3674.49 -46.702\t280\t370\tPa\tcorrelated\tbook\t", "column preference: blank; give 1 for the preferred correlation")]
    public void Read_WrongCorrelation_IsAFault(string row, string expected) =>
        Assert.Contains(Faults(correlations: $"64-17-5\tvapour pressure\t{row}\n"), f => f.StartsWith("Data/correlations/book.tsv, line 2, " + expected, StringComparison.Ordinal));

    [Theory]
    [InlineData("64-17-5\t1:1 2:1 14:1\t\tcorrelated\n", "column source: blank")]
    [InlineData("64-17-5\t1:1 2:1 999:1\tbook\tcorrelated\n", "column subgroups: '1:1 2:1 999:1'; '999:1' is no published subgroup")]
    [InlineData("64-17-5\t1:1 1:1 14:1\tbook\tcorrelated\n", "column subgroups")]
    [InlineData("64-17-5\t1:1 2 14:1\tbook\tcorrelated\n", "column subgroups")]
    public void Read_WrongAssignment_IsAFault(string row, string expected) =>
        Assert.StartsWith("Data/unifac-assignments.tsv, line 2, " + expected, Assert.Single(Faults(assignments: row)), StringComparison.Ordinal);

    [Fact]
    public void Read_OtherHeading_IsAFault() => Assert.Contains(
        "Data/values/book.tsv, line 1: the heading must be 'cas|quantity|value|",
        Assert.Single(Faults(correlations: "", valuesHeading: "cas\tquantity\tvalue\n", values: "")),
        StringComparison.Ordinal);

    [Fact]
    public void Read_DensitiesAtTwoTemperatures_KeepsTheTemperatureOfTheGoverningOne()
    {
        var (catalog, faults) = CatalogReader.Read(Files(Ethanol, BoilingPoint
            + "64-17-5\tdensity\t789.3\tkg/m3\t293.15 K\tmeasured\tbook\tyes\t\n64-17-5\tdensity\t785\tkg/m3\t298.15 K\tassumed\tbook\tyes\t\n"));
        Assert.Empty(faults);
        Assert.Equal((789.3, 293.15), (catalog.Substances[0].DensityKgPerM3!.Value, catalog.Substances[0].DensityTemperatureK));
    }

    private static IReadOnlyList<string> Faults(
        string identity = Ethanol,
        string values = BoilingPoint,
        string correlations = "64-17-5\tvapour pressure\tantoine-ln\t23.58 3674.49 -46.702\t280\t370\tPa\tcorrelated\tbook\t1\n",
        string assignments = "64-17-5\t1:1 2:1 14:1\tbook\tcorrelated\n",
        string valuesHeading = Values) => CatalogReader.Read(Files(identity, values, correlations, assignments, valuesHeading)).Faults;

    private static Dictionary<string, string> Files(string identity, string values, string correlations = "", string assignments = "", string valuesHeading = Values) => new(StringComparer.Ordinal)
    {
        [CatalogReader.Identities] = Heading + identity,
        [CatalogReader.References] = "@book{book, title={A book}}\n",
        [CatalogReader.Subgroups] = "subgroup\tlabel\n1\tCH3\n2\tCH2\n14\tOH\n",
        [CatalogReader.Assignments] = Assignments + assignments,
        ["Data/values/book.tsv"] = valuesHeading + values,
        ["Data/correlations/book.tsv"] = Correlations + correlations,
    };
}
