using PreApproval.Hazards.Health;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Health;

/// <summary>A row with a fault is refused with the file and the line.</summary>
public sealed class HealthFaultTests
{
    private const string LimitHeading = "cas\tname\tkind\tppm\tmg_per_m3\tform\tskin\tjurisdiction\tyear\tquality\tsource\tnote\n";

    [Fact]
    public void Read_SoundRows_HasNoFaults() => Assert.Empty(Read().Faults);

    [Fact]
    public void Read_SoundRows_FillsTheSubstance()
    {
        var ethanol = Read().Catalog.Substances[0];

        Assert.Equal("H225", Assert.Single(ethanol.HazardStatements!.Value).Code);
        Assert.Equal(1000, ethanol.ExposureLimits!.StrictestTwa!.Ppm);
        Assert.Equal(3300, ethanol.Idlh!.Ppm);
        Assert.Equal("1", ethanol.Carcinogen!.GroupName);
    }

    [Fact]
    public void Read_NoRows_LeavesTheSubstanceUnknown()
    {
        var ethanol = Read(statements: "", limits: "", idlh: "", carcinogens: "").Catalog.Substances[0];

        Assert.Null(ethanol.HazardStatements);
        Assert.Null(ethanol.ExposureLimits);
        Assert.Null(ethanol.Idlh);
        Assert.Null(ethanol.Carcinogen);
    }

    [Theory]
    [InlineData("64-17-6\tethanol\tH225\tassumed\tbook\t\n", "not among the identities")]
    [InlineData("64-17-5\tethanol\tH999\tassumed\tbook\t\n", "H999")]
    [InlineData("64-17-5\tethanol\tH314\tassumed\tbook\t\n", "H314")]
    [InlineData("64-17-5\tethanol\t\tassumed\tbook\t\n", "no hazard statement")]
    [InlineData("64-17-5\tethanol\tH225 H225\tassumed\tbook\t\n", "twice")]
    [InlineData("64-17-5\tethanol\tnone\tassumed\tbook\t\n", "basis")]
    [InlineData("64-17-5\tethanol\tH225\tassumed\t\t\n", "source")]
    [InlineData("64-17-5\tethanol\tH225\t\tbook\t\n", "quality")]
    [InlineData("64-17-5\tethanol\tH225\tassumed\tbook\t\n64-17-5\tethanol\tnone\tassumed\tbook\tbasis\n", "already")]
    public void Read_WrongStatements_IsAFault(string row, string expected) =>
        Assert.Contains(Read(statements: row).Faults, fault => fault.StartsWith("Data/hazard-statements.tsv, line ", StringComparison.Ordinal) && fault.Contains(expected, StringComparison.Ordinal));

    [Theory]
    [InlineData("64-17-6\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "not among the identities")]
    [InlineData("64-17-5\tethanol\tTLV\t1000\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "kind")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tsmoke\tno\tHere\t2000\tassumed\tbook\t\n", "form")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tvapour\t\tHere\t2000\tassumed\tbook\t\n", "skin")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\t\t2000\tassumed\tbook\t\n", "jurisdiction")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t\tassumed\tbook\t\n", "year")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t20000\tassumed\tbook\t\n", "year")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t2000\tassumed\t\t\n", "source")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t2000\tsure\tbook\t\n", "quality")]
    [InlineData("64-17-5\tethanol\tTWA\t-5\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "above 0")]
    [InlineData("64-17-5\tethanol\tTWA\t0\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "above 0")]
    [InlineData("64-17-5\tethanol\tTWA\t2000000\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "at most")]
    [InlineData("64-17-5\tethanol\tTWA\ttwo\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "no number")]
    [InlineData("64-17-5\tethanol\tTWA\t\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "neither")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tparticulate\tno\tHere\t2000\tassumed\tbook\t\n", "no ppm")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t1000\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "mg/m³")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n64-17-5\tethanol\tTWA\t500\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "already")]
    [InlineData("64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n64-17-5\tethanol\tSTEL\t500\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "below the average")]
    [InlineData("64-17-5\tethanol\tceiling\t500\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n", "below the average")]
    public void Read_WrongLimit_IsAFault(string row, string expected) =>
        Assert.Contains(Read(limits: row).Faults, fault => fault.StartsWith("Data/exposure-limits-book.tsv, line ", StringComparison.Ordinal) && fault.Contains(expected, StringComparison.Ordinal));

    [Theory]
    [InlineData("64-17-6\tethanol\t3300\t\t1994\tassumed\tbook\t\n", "not among the identities")]
    [InlineData("64-17-5\tethanol\t3300\t\t\tassumed\tbook\t\n", "year")]
    [InlineData("64-17-5\tethanol\t-1\t\t1994\tassumed\tbook\t\n", "above 0")]
    [InlineData("64-17-5\tethanol\t3300\t\t1994\tassumed\tother\t\n", "source")]
    [InlineData("64-17-5\tethanol\t3300\t\t1994\tassumed\tbook\t\n64-17-5\tethanol\t3000\t\t1994\tassumed\tbook\t\n", "already")]
    public void Read_WrongIdlh_IsAFault(string row, string expected) =>
        Assert.Contains(Read(idlh: row).Faults, fault => fault.StartsWith("Data/idlh.tsv, line ", StringComparison.Ordinal) && fault.Contains(expected, StringComparison.Ordinal));

    [Theory]
    [InlineData("64-17-5\tethanol\t4\t2012\tassumed\tbook\t\n", "'4'")]
    [InlineData("64-17-5\tethanol\t1\t\tassumed\tbook\t\n", "year")]
    [InlineData("64-17-5\tethanol\t1\t2012\tassumed\tbook\t\n64-17-5\tethanol\t3\t2012\tassumed\tbook\t\n", "already")]
    public void Read_WrongCarcinogen_IsAFault(string row, string expected) =>
        Assert.Contains(Read(carcinogens: row).Faults, fault => fault.StartsWith("Data/carcinogens.tsv, line ", StringComparison.Ordinal) && fault.Contains(expected, StringComparison.Ordinal));

    [Theory]
    [InlineData("H225\t\t2\tHighly flammable liquid and vapour\n", "lacks")]
    [InlineData("H225\tflammable liquid\t2\t\n", "lacks")]
    [InlineData("H225\tflammable liquid\t2\tText\nH225\tflammable liquid\t2\tText\n", "twice")]
    public void Read_WrongCode_IsAFault(string rows, string expected) =>
        Assert.Contains(Read(codes: rows).Faults, fault => fault.Contains(expected, StringComparison.Ordinal));

    private static (Catalog Catalog, IReadOnlyList<string> Faults) Read(
        string codes = "H225\tflammable liquid\t2\tHighly flammable liquid and vapour\nH314:1B\tskin corrosion\t1B\tCauses severe skin burns and eye damage\n",
        string statements = "64-17-5\tethanol\tH225\tassumed\tbook\t\n",
        string limits = "64-17-5\tethanol\tTWA\t1000\t\tvapour\tno\tHere\t2000\tassumed\tbook\t\n",
        string idlh = "64-17-5\tethanol\t3300\t\t1994\tassumed\tbook\t\n",
        string carcinogens = "64-17-5\tethanol\t1\t2012\tassumed\tbook\t\n")
    {
        var files = new SortedDictionary<string, string>(StringComparer.Ordinal)
        {
            [CatalogReader.Identities] = "cas\tname\tsynonyms\tformula\tmolar_mass_g_per_mol\tsmiles\tphase_at_298K\tinvolatile\n64-17-5\tethanol\t\tC2H6O\t46.069\tCCO\tliquid\tno\n",
            [CatalogReader.References] = "@book{book, title={A book}}\n",
            [CatalogReader.Assignments] = "cas\tsubgroups\tsource\tquality\n",
            [HazardStatementTable.File] = "statement\tclass\tcategory\ttext\n" + codes,
            [HealthRows.Statements] = "cas\tname\tstatements\tquality\tsource\tnote\n" + statements,
            ["Data/exposure-limits-book.tsv"] = LimitHeading + limits,
            [HealthRows.Idlh] = "cas\tname\tppm\tmg_per_m3\tyear\tquality\tsource\tnote\n" + idlh,
            [HealthRows.Carcinogens] = "cas\tname\tgroup\tyear\tquality\tsource\tnote\n" + carcinogens,
        };
        return CatalogReader.Read(files);
    }
}
