using System.Globalization;
using System.Text;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Plans;

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
            Vessel("""{ "label": "A-03", "kind": "autoclave", "relief": { "device": "bursting disc", "set": { "value": 1.1, "unit": "MPa" } } }"""),
            Vessel("""{ "label": "T-08", "kind": "tube", "relief": { "device": "valve", "set": { "value": 3.5, "unit": "bar(g)" } }, "glassTube": { "outsideDiameterMm": 25.400000000000002, "wallMm": 0.1, "annealed": true } }"""),
            Vessel("""{ "label": "T-09", "kind": "tube", "glassTube": { "outsideDiameterMm": 20, "wallMm": 2.25, "annealed": false } }"""),
            Vessel("""{ "label": "T-10", "kind": "tube", "glassTube": { "outsideDiameterMm": 20, "wallMm": 2 } }"""),
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
            Assert.Equal(vessel.Vessel.GlassTube, fresh.Vessel.GlassTube);
            Assert.Equal(vessel.Vessel.Relief?.Device, fresh.Vessel.Relief?.Device);
            Assert.Equal(vessel.Vessel.Relief?.Set?.Si ?? 0, fresh.Vessel.Relief?.Set?.Si ?? 0, 1e-3);
        }
    }

    [Fact]
    public void Write_OtherUnits_ConvertsToThoseOfTheHeader()
    {
        string text = VesselTable.Write([Vessel("""{ "label": "T", "kind": "tube", "volume": { "value": 0.035, "unit": "L" }, "rating": { "value": 100, "unit": "psi(g)" }, "ratingEvidence": "engraved", "maximumTemperature": { "value": 453.15, "unit": "K" } }""")]);
        string[] lines = text.Split("\r\n");
        Assert.Equal("label,kind,volume (mL),rating (bar(g)),rating evidence,maximum temperature (°C),closure,inspected on,relief device,relief set (bar(g)),outside diameter (mm),wall (mm),annealed,out of service,note,part 1,part 1 rating (bar(g)),part 1 maximum temperature (°C)", lines[0]);
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
    [InlineData("label,wall\r\nT,3\r\n", "/1/wall")]
    [InlineData("label,outside diameter (cm)\r\nT,3\r\n", "/1/outside diameter (cm)")]
    [InlineData("label,relief set\r\nT,3\r\n", "/1/relief set")]
    [InlineData("label,annealed (mm)\r\nT,yes\r\n", "/1/annealed (mm)")]
    [InlineData("label,relief\r\nT,valve\r\n", "/1/relief")]
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

    [Theory]
    [InlineData("relief device,relief set (bar(g))", "tap,5", "relief device", "\"tap\" is not known here; Allowed: valve or bursting disc")]
    [InlineData("relief device,relief set (bar(g))", "bursting disk,5", "relief device", "did you mean")]
    [InlineData("relief device,relief set (bar(g))", "valve,five", "relief set (bar(g))", "“five” is no number; write for instance 1.5")]
    [InlineData("relief device,relief set (bar(g))", "valve,", "relief set (bar(g))", "give the pressure at which it opens")]
    [InlineData("relief device,relief set (bar(g))", ",5", "relief device", "one of valve or bursting disc")]
    [InlineData("relief set (psi(g))", "50", "relief device", "one of valve or bursting disc")]
    [InlineData("outside diameter (mm),wall (mm)", "20,thick", "wall (mm)", "“thick” is no number; write for instance 1.5")]
    [InlineData("outside diameter (mm),wall (mm)", ",thick", "wall (mm)", "“thick” is no number")]
    [InlineData("outside diameter (mm),wall (mm)", "20,", "wall (mm)", "give the thickness of the wall in mm")]
    [InlineData("outside diameter (mm),wall (mm)", "20,10", "wall (mm)", "below half the outside diameter")]
    [InlineData("outside diameter (mm),wall (mm)", "600,10", "outside diameter (mm)", "must be from 1 to 500")]
    [InlineData("outside diameter (mm),wall (mm),annealed", "20,2,perhaps", "annealed", "“perhaps” is neither yes nor no")]
    [InlineData("outside diameter (mm),wall (mm),annealed", "20,2,true", "annealed", "“true” is neither yes nor no")]
    public void ReadLine_BadFitting_SaysWhereAndWhatWouldBeRight(string columns, string cells, string column, string words)
    {
        VesselTable table = VesselTable.Read(Encoding.UTF8.GetBytes($"label,kind,{columns}\r\nT,tube,{cells}\r\n")).Value!;
        Fault fault = Assert.Single(table.Read(table.Lines[0], before: null).Error!.Faults);
        Assert.Equal($"/2/{column}", fault.Path);
        Assert.StartsWith($"line 2, {column}: ", fault.Message, StringComparison.Ordinal);
        Assert.Contains(words, fault.Message, StringComparison.Ordinal);
    }

    /// <summary>Spreadsheets begin a cell with a capital letter.</summary>
    [Fact]
    public void ReadLine_FittingsInAnyLetterCase_AreRead()
    {
        VesselTable table = VesselTable.Read("label,kind,Relief Device,relief set (psi(g)),outside diameter (mm),wall (mm),annealed\r\nT,tube,Bursting disc ,50,20,2.5,YES\r\n"u8.ToArray()).Value!;
        VesselEntry read = table.Read(table.Lines[0], before: null).Value!.Vessel;
        Assert.Equal(new ReliefEntry(ReliefKind.BurstingDisc, new Quantity(50, "psi(g)")), read.Relief);
        Assert.Equal(new GlassTubeEntry(20, 2.5, true), read.GlassTube);
    }

    [Theory]
    [InlineData("label,closure", "T-07,plug", "valve 3.5 bar(g) 20 2 yes")]
    [InlineData("label,wall (mm)", "T-07,1.8", "valve 3.5 bar(g) 20 1.8 yes")]
    [InlineData("label,annealed", "T-07,", "valve 3.5 bar(g) 20 2 ?")]
    [InlineData("label,annealed", "T-07,no", "valve 3.5 bar(g) 20 2 no")]
    [InlineData("label,relief device", "T-07,bursting disc", "bursting disc 3.5 bar(g) 20 2 yes")]
    [InlineData("label,relief set (kPa)", "T-07,451.325", "valve 3.5 bar(g) 20 2 yes")]
    [InlineData("label,relief device,relief set (bar(g))", "T-07,,", "20 2 yes")]
    [InlineData("label,outside diameter (mm),wall (mm),annealed", "T-07,,,", "valve 3.5 bar(g)")]
    public void ReadLine_SomeColumnsOfAFitting_LeaveTheOthersAsTheyAre(string columns, string cells, string after)
    {
        InventoryVessel before = Vessel("""{ "label": "T-07", "kind": "tube", "relief": { "device": "valve", "set": { "value": 3.5, "unit": "bar(g)" } }, "glassTube": { "outsideDiameterMm": 20, "wallMm": 2, "annealed": true } }""");
        VesselTable table = VesselTable.Read(Encoding.UTF8.GetBytes($"{columns}\r\n{cells}\r\n")).Value!;
        VesselEntry read = table.Read(table.Lines[0], before).Value!.Vessel;
        string relief = read.Relief is { } r ? $"{r.DeviceWord} {r.Set!.Value.ToString(CultureInfo.InvariantCulture)} {r.Set.Unit}" : "";
        string tube = read.GlassTube is { } t ? string.Create(CultureInfo.InvariantCulture, $"{t.OutsideDiameterMm} {t.WallMm} {t.Annealed switch { true => "yes", false => "no", null => "?" }}") : "";
        Assert.Equal(after, $"{relief} {tube}".Trim());
    }

    [Fact]
    public void ReadLine_ColumnsThatAreNotThere_StayAndEmptyCellsTakeAway()
    {
        InventoryVessel before = Vessel("""{ "label": "T-07", "kind": "tube", "volume": { "value": 35, "unit": "mL" }, "closure": "plug", "parts": [ { "part": "seal" } ] }""");
        VesselTable table = VesselTable.Read("label,closure\r\nt07,\r\n"u8.ToArray()).Value!;
        InventoryVessel after = table.Read(table.Lines[0], before).Value!;
        Assert.Equal((35.0, null, 1), (after.Vessel.Volume!.Value, after.Vessel.Closure, after.Vessel.Parts!.Count));
    }

    [Fact]
    public void ReadLine_NoteWithOtherLineBreaks_StaysAsItWas()
    {
        InventoryVessel before = Vessel("""{ "label": "T-07", "kind": "tube", "note": "one\ntwo" }""");
        VesselTable table = VesselTable.Read(Encoding.UTF8.GetBytes(VesselTable.Write([before]).Replace("one\ntwo", "one\r\ntwo", StringComparison.Ordinal))).Value!;
        Assert.Equal("one\ntwo", table.Read(table.Lines[0], before).Value!.Note);
    }

    private static InventoryVessel Vessel(string json) => (InventoryVessel)InventoryDocument.Read(InventoryKind.Vessel, Encoding.UTF8.GetBytes(json)).Value!;
}
