using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Substances;

/// <summary>A data file with a fault is refused with the file and the line.</summary>
public sealed class CatalogFaultTests
{
    private const string Heading = "cas\tname\tsynonyms\tformula\tmolar_mass_g_per_mol\tsmiles\tphase_at_298K\tinvolatile\n";
    private const string Ethanol = "64-17-5\tethanol\t\tC2H6O\t46.069\tCCO\tliquid\tno\n";
    private const string Values = "cas\tquantity\tvalue\tunit\tconditions\tquality\tsource\tgoverns\tnote\n";
    private const string Correlations = "cas\tquantity\tform\tcoefficients\tminimum_K\tmaximum_K\tunit\tquality\tsource\tpreference\n";

    [Fact]
    public void Read_SoundFiles_HasNoFaults() => Assert.Empty(Faults());

    [Theory]
    [InlineData("64-17-6\tethanol\t\tC2H6O\t46.069\tCCO\tliquid\tno\n", "check digit")]
    [InlineData("64-17-5\tethanol\t\tC2H6O\t46.5\tCCO\tliquid\tno\n", "molar mass")]
    [InlineData("64-17-5\tethanol\t\tH6C2O\t46.069\tCCO\tliquid\tno\n", "Hill")]
    public void Read_WrongIdentity_IsAFault(string row, string expected) => Assert.Contains(expected, Assert.Single(Faults(identity: row, values: "", correlations: "")), StringComparison.Ordinal);

    [Theory]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t101325 Pa\tmeasured\t\tyes\t\n", "source")]
    [InlineData("64-17-5\tboiling point\t351.4\t\t101325 Pa\tmeasured\tbook\tyes\t\n", "unit")]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t\tmeasured\tbook\tyes\t\n", "conditions")]
    [InlineData("64-17-5\tboiling point\t351.4\tK\t101325 Pa\t\tbook\tyes\t\n", "quality")]
    [InlineData("64-17-5\tboiling point\t78,3\tK\t101325 Pa\tmeasured\tbook\tyes\t\n", "no number")]
    [InlineData("64-17-5\tboiling point\t361.4\tK\t101325 Pa\tmeasured\tbook\tyes\t\n", "more than 2 K")]
    public void Read_WrongValue_IsAFault(string row, string expected) => Assert.Contains(Faults(values: row), f => f.Contains(expected, StringComparison.Ordinal));

    [Theory]
    [InlineData("64-17-5\tvapour pressure\tantoine-ln\t23.58\t3674.49\t\t350\tPa\tcorrelated\tbook\t1\n")]
    [InlineData("64-17-5\tvapour pressure\tantoine-ln\t23.58 3674.49 -46.702\t\t\tPa\tcorrelated\tbook\t1\n")]
    [InlineData("64-17-5\tvapour pressure\tantoine-ln\t23.58 3674.49 -46.702\t280\t370\tbar\tcorrelated\tbook\t1\n")]
    public void Read_CorrelationWithoutRangeOrUnit_IsAFault(string row) => Assert.NotEmpty(Faults(correlations: row));

    private static IReadOnlyList<string> Faults(
        string identity = Ethanol,
        string values = "64-17-5\tboiling point\t351.4\tK\t101325 Pa\tmeasured\tbook\tyes\t\n",
        string correlations = "64-17-5\tvapour pressure\tantoine-ln\t23.58 3674.49 -46.702\t280\t370\tPa\tcorrelated\tbook\t1\n")
    {
        var files = new SortedDictionary<string, string>(StringComparer.Ordinal)
        {
            [CatalogReader.Identities] = Heading + identity,
            [CatalogReader.References] = "@book{book, title={A book}}\n",
            [CatalogReader.Assignments] = "cas\tsubgroups\tsource\tquality\n",
            ["Data/values/book.tsv"] = Values + values,
            ["Data/correlations/book.tsv"] = Correlations + correlations,
        };
        return CatalogReader.Read(files).Faults;
    }
}
