using System.Globalization;
using System.Text;
using PreApproval.Documents.Inventory;

namespace PreApproval.Documents.Tests;

/// <summary>Tables of vessels as text. Vessels are invented.</summary>
public sealed class InventoryTableTests
{
    /// <summary>The examples of RFC 4180, section 2, points 1, 2, 5, 6 and 7.</summary>
    [Theory]
    [InlineData("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "aaa|bbb|ccc#zzz|yyy|xxx")]
    [InlineData("aaa,bbb,ccc\r\nzzz,yyy,xxx", "aaa|bbb|ccc#zzz|yyy|xxx")]
    [InlineData("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|bbb|ccc#zzz|yyy|xxx")]
    [InlineData("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|b\r\nbb|ccc#zzz|yyy|xxx")]
    [InlineData("\"aaa\",\"b\"\"bb\",\"ccc\"", "aaa|b\"bb|ccc")]
    public void Read_ExamplesOfTheStandard_GiveTheirFields(string text, string records)
    {
        Assert.Equal(records, string.Join('#', CsvText.Read(text).Value!.Select(record => string.Join('|', record.Fields))));
    }

    [Theory]
    [InlineData("a,b\r\nc,\"d", "/2", "closes")]
    [InlineData("a,b\r\n\"c\"d,e", "/2", "behind the closing quotation mark")]
    [InlineData("a,b\r\nc\"d,e", "/2", "inside a field")]
    public void Read_BrokenQuotation_NamesTheLine(string text, string path, string words)
    {
        Fault fault = CsvText.Read(text).Error!;
        Assert.Equal(path, fault.Path);
        Assert.Contains(words, fault.Message, StringComparison.Ordinal);
    }

    /// <summary>The signs by which a field is taken for a formula: OWASP, "CSV Injection".</summary>
    [Theory]
    [InlineData("=1+1")]
    [InlineData("+1")]
    [InlineData("-1")]
    [InlineData("@SUM(A1)")]
    [InlineData("\t=1")]
    [InlineData("\r=1")]
    [InlineData("'=1")]
    [InlineData("''=1")]
    [InlineData("'quoted")]
    [InlineData("plain")]
    public void Guarded_Text_NeverBeginsAsAFormulaAndComesBack(string text)
    {
        string field = CsvText.Guarded(text);
        Assert.DoesNotContain(field[0], "=+-@\t\r");
        Assert.Equal(text, CsvText.Unguarded(field));
    }

    [Fact]
    public void Write_ThenRead_ChangesNoVessel()
    {
        InventoryVessel[] vessels =
        [
            Vessel("""{ "label": "T-07", "kind": "tube, thick \"glass\"", "volume": { "value": 0.035, "unit": "L" }, "rating": { "value": 100, "unit": "psi(g)" }, "ratingEvidence": "=engraved", "maximumTemperature": { "value": 453.15, "unit": "K" }, "inspectedOn": "2031-02-10", "note": "first line\nsecond line" }"""),
            Vessel("""{ "label": "-20", "kind": "beaker", "maximumTemperature": { "value": -20, "unit": "°C" }, "outOfService": "@ the workshop" }"""),
            Vessel("""{ "label": "A-02", "kind": "autoclave", "volume": { "value": 100, "unit": "mL" }, "rating": { "value": 10.1, "unit": "MPa" }, "ratingEvidence": "certificate", "parts": [ { "part": "gasket", "maximumTemperature": { "value": 200, "unit": "°C" } }, { "part": "disc", "rating": { "value": 80, "unit": "bar(g)" } } ] }"""),
        ];
        VesselTable table = VesselTable.Read(Encoding.UTF8.GetBytes(VesselTable.Write(vessels))).Value!;
        Assert.Equal(vessels.Length, table.Lines.Count);
        foreach ((CsvRecord line, InventoryVessel vessel) in table.Lines.Zip(vessels))
        {
            Assert.Equal(vessel.Label, table.LabelOf(line));
            Assert.Equal(Encoding.UTF8.GetString(InventoryDocument.Canonical(vessel)), Encoding.UTF8.GetString(InventoryDocument.Canonical(table.Read(line, vessel).Value!)));

            // Into an empty inventory: the same values, in the units of the header.
            InventoryVessel fresh = table.Read(line, before: null).Value!;
            Assert.Equal(vessel.Vessel.Volume?.Si ?? 0, fresh.Vessel.Volume?.Si ?? 0, 1e-12);
            Assert.Equal(vessel.Vessel.MaximumTemperature?.Si ?? 0, fresh.Vessel.MaximumTemperature?.Si ?? 0, 1e-9);
            Assert.Equal(vessel.OutOfService, fresh.OutOfService);
        }
    }

    [Fact]
    public void Write_OtherUnits_ConvertsToThoseOfTheHeader()
    {
        string text = VesselTable.Write([Vessel("""{ "label": "T", "kind": "tube", "volume": { "value": 0.035, "unit": "L" }, "rating": { "value": 100, "unit": "psi(g)" }, "ratingEvidence": "engraved", "maximumTemperature": { "value": 453.15, "unit": "K" } }""")]);
        string[] lines = text.Split("\r\n");
        Assert.Equal("label,kind,volume (mL),rating (bar(g)),rating evidence,maximum temperature (°C),closure,inspected on,out of service,note,part 1,part 1 rating (bar(g)),part 1 maximum temperature (°C)", lines[0]);
        string[] cells = lines[1].Split(',');
        Assert.Equal("35", cells[2]);

        // NIST SP 811, appendix B.8: 1 psi = 6.894757 kPa; 180 °C = 453.15 K.
        Assert.Equal(6.894757, double.Parse(cells[3], CultureInfo.InvariantCulture), 6);
        Assert.Equal(180, double.Parse(cells[5], CultureInfo.InvariantCulture), 9);
    }

    [Theory]
    [InlineData("", "")]
    [InlineData("label;kind\r\nT;tube\r\n", "/1")]
    [InlineData("kind\r\ntube\r\n", "/1/label")]
    [InlineData("label,colour\r\nT,red\r\n", "/1/colour")]
    [InlineData("label,label\r\nT,T\r\n", "/1/label")]
    [InlineData("label,volume\r\nT,3\r\n", "/1/volume")]
    [InlineData("label,volume (bar)\r\nT,3\r\n", "/1/volume (bar)")]
    [InlineData("label,kind\r\nT\r\n", "/2")]
    public void Read_BadShape_IsRefusedWithLineAndColumn(string text, string path)
    {
        Assert.Equal(path, Assert.Single(VesselTable.Read(Encoding.UTF8.GetBytes(text)).Error!.Faults).Path);
    }

    [Fact]
    public void Read_NotUtf8_IsRefused()
    {
        Assert.Equal(DocumentRefusalKind.NotJson, VesselTable.Read(new byte[] { 0x6C, 0xB0, 0x43 }).Error!.Kind);
    }

    [Theory]
    [InlineData("label,kind,volume (mL)\r\nT,tube,\"1,5\"\r\n", "/2/volume (mL)")]
    [InlineData("label,kind,volume (mL)\r\nT,tube,-5\r\n", "/2/volume (mL)")]
    [InlineData("label,kind,rating (bar(g))\r\nT,tube,5\r\n", "/2/rating evidence")]
    [InlineData("label,kind,inspected on\r\nT,tube,10.02.2031\r\n", "/2/inspected on")]
    [InlineData("label,kind,part 1 rating (bar(g))\r\nT,tube,5\r\n", "/2/part 1")]
    [InlineData("label\r\nT\r\n", "/2/kind")]
    public void ReadLine_BadCell_NamesLineAndColumn(string text, string path)
    {
        VesselTable table = VesselTable.Read(Encoding.UTF8.GetBytes(text)).Value!;
        Fault fault = Assert.Single(table.Read(table.Lines[0], before: null).Error!.Faults);
        Assert.Equal(path, fault.Path);
        Assert.StartsWith("line 2", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ReadLine_ColumnsThatAreNotThere_StayAndEmptyCellsTakeAway()
    {
        InventoryVessel before = Vessel("""{ "label": "T-07", "kind": "tube", "volume": { "value": 35, "unit": "mL" }, "closure": "plug", "parts": [ { "part": "seal" } ] }""");
        VesselTable table = VesselTable.Read("label,closure\r\nt07,\r\n"u8.ToArray()).Value!;
        InventoryVessel after = table.Read(table.Lines[0], before).Value!;
        Assert.Equal((35.0, null, 1), (after.Vessel.Volume!.Value, after.Vessel.Closure, after.Vessel.Parts!.Count));
    }

    private static InventoryVessel Vessel(string json) => (InventoryVessel)InventoryDocument.Read(InventoryKind.Vessel, Encoding.UTF8.GetBytes(json)).Value!;
}
