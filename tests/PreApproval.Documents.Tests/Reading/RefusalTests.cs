using System.Text;
using System.Text.Json.Nodes;

namespace PreApproval.Documents.Tests.Reading;

/// <summary>Bad input, one fault each: the path and what is said.</summary>
public sealed class RefusalTests
{
    /// <summary>Text replaced in the small document, where the fault is reported, and words of its message.</summary>
    public static TheoryData<string, string, DocumentRefusalKind, string, string> OneFault => new()
    {
        { "\"value\": 5, \"unit\": \"g\"", "\"value\": -5, \"unit\": \"g\"", DocumentRefusalKind.Invalid, "/materials/1/amount/value", "-5 g is not possible; it must be above 0" },
        { "\"value\": 5, \"unit\": \"g\"", "\"value\": 0, \"unit\": \"g\"", DocumentRefusalKind.Invalid, "/materials/1/amount/value", "must be above 0" },
        { "\"value\": 5, \"unit\": \"g\"", "\"value\": 2000, \"unit\": \"kg\"", DocumentRefusalKind.Invalid, "/materials/1/amount/value", "more than 1000 kg" },
        { "\"value\": 50, \"unit\": \"mL\"", "\"value\": 1e9, \"unit\": \"L\"", DocumentRefusalKind.Invalid, "/materials/0/amount/value", "more than 1000 L" },
        { "\"value\": 5, \"unit\": \"g\"", "\"value\": 1e999, \"unit\": \"g\"", DocumentRefusalKind.Invalid, "/materials/1/amount/value", "too large a number" },
        { "\"value\": 5, \"unit\": \"g\"", "\"value\": \"5\", \"unit\": \"g\"", DocumentRefusalKind.Invalid, "/materials/1/amount/value", "without quotes" },
        { "\"value\": 5, \"unit\": \"g\"", "\"value\": null, \"unit\": \"g\"", DocumentRefusalKind.Invalid, "/materials/1/amount/value", "but is null" },
        { "\"value\": 5, \"unit\": \"g\"", "\"value\": 5", DocumentRefusalKind.Invalid, "/materials/1/amount/unit", "is missing: allowed units: kg, g, mg, mol" },
        { "\"unit\": \"g\"", "\"unit\": \"°C\"", DocumentRefusalKind.Invalid, "/materials/1/amount/unit", "does not measure an amount; allowed here: kg, g, mg, mol, mmol, µmol, L, mL or µL" },
        { "\"unit\": \"g\"", "\"unit\": \"gram\"", DocumentRefusalKind.Invalid, "/materials/1/amount/unit", "did you mean \"g\"?" },
        { "\"value\": 50, \"unit\": \"mL\"", "\"value\": 50, \"unit\": \"ml\"", DocumentRefusalKind.Invalid, "/materials/0/amount/unit", "did you mean \"mL\"?" },
        { "{ \"value\": 5, \"unit\": \"g\" }", "\"5 g\"", DocumentRefusalKind.Invalid, "/materials/1/amount", "for instance {\"value\": 20, \"unit\": \"kg\"}" },
        { "\"value\": 20, \"unit\": \"°C\"", "\"value\": -300, \"unit\": \"°C\"", DocumentRefusalKind.Invalid, "/steps/0/temperature/value", "below absolute zero" },
        { "\"value\": 20, \"unit\": \"°C\"", "\"value\": -1, \"unit\": \"K\"", DocumentRefusalKind.Invalid, "/steps/0/temperature/value", "below absolute zero" },
        { "\"value\": 20, \"unit\": \"°C\"", "\"value\": 3001, \"unit\": \"K\"", DocumentRefusalKind.Invalid, "/steps/0/temperature/value", "above 3000 K" },
        { "\"value\": 20, \"unit\": \"°C\"", "\"value\": 68, \"unit\": \"°F\"", DocumentRefusalKind.Invalid, "/steps/0/temperature/unit", "Allowed here: °C or K" },
        { "\"value\": 10, \"unit\": \"min\"", "\"value\": 10, \"unit\": \"hours\"", DocumentRefusalKind.Invalid, "/steps/1/duration/unit", "did you mean \"h\"?" },
        { "\"value\": 10, \"unit\": \"min\"", "\"value\": 400, \"unit\": \"d\"", DocumentRefusalKind.Invalid, "/steps/1/duration/value", "more than 366 d" },
        { "\"action\": \"stir\"", "\"action\": \"stirr\"", DocumentRefusalKind.Invalid, "/steps/1/action", "did you mean \"stir\"?" },
        { "\"action\": \"stir\"", "\"action\": \"Stir\"", DocumentRefusalKind.Invalid, "/steps/1/action", "did you mean \"stir\"?" },
        { "\"action\": \"stir\"", "\"action\": \"heat\"", DocumentRefusalKind.Invalid, "/steps/1/temperature", "\"heat\" needs the temperature" },
        { "\"action\": \"stir\"", "\"action\": \"quench\"", DocumentRefusalKind.Invalid, "/steps/1/materials", "\"quench\" needs the materials" },
        { "\"action\": \"stir\"", "\"action\": \"distil\", \"to\": \"beaker\"", DocumentRefusalKind.Invalid, "/steps/1/to", "does not belong to \"distil\", only to transfer or filter" },
        { "\"action\": \"stir\"", "\"action\": \"stir\", \"closure\": \"septum\"", DocumentRefusalKind.Invalid, "/steps/1/closure", "does not belong to \"stir\", only to seal" },
        { "\"action\": \"stir\"", "\"action\": \"stir\", \"pressure\": { \"value\": 80, \"unit\": \"mbar\" }", DocumentRefusalKind.Invalid, "/steps/1/pressure", "does not belong to \"stir\", only to pressurise, evacuate, concentrate or distil" },
        { "\"action\": \"stir\"", "\"action\": \"concentrate\", \"pressure\": { \"value\": 80, \"unit\": \"bar\" }", DocumentRefusalKind.Invalid, "/steps/1/pressure", "is above the atmosphere" },
        { "\"action\": \"stir\"", "\"action\": \"distil\", \"pressure\": { \"value\": -2, \"unit\": \"bar(g)\" }", DocumentRefusalKind.Invalid, "/steps/1/pressure/value", "below a perfect vacuum" },
        { "\"action\": \"stir\"", "\"action\": \"transfer\", \"to\": \"beaker\"", DocumentRefusalKind.Invalid, "/steps/1/to", "name another" },
        { "\"action\": \"stir\", \"vessel\": \"beaker\"", "\"action\": \"stir\"", DocumentRefusalKind.Invalid, "/steps/1/vessel", "a step names the vessel" },
        { "\"action\": \"stir\", \"vessel\": \"beaker\"", "\"action\": \"stir\", \"vessel\": \"\"", DocumentRefusalKind.Invalid, "/steps/1/vessel", "is blank" },
        { "\"action\": \"stir\", \"vessel\": \"beaker\"", "\"action\": \"stir\", \"vessel\": \"beacker\"", DocumentRefusalKind.Invalid, "/steps/1/vessel", "no vessel has the id \"beacker\"; did you mean \"beaker\"?" },
        { "[\"water\", \"salt\"]", "[\"water\", \"slat\"]", DocumentRefusalKind.Invalid, "/steps/0/materials/1", "did you mean \"salt\"?" },
        { "[\"water\", \"salt\"]", "[\"water\", { \"id\": \"pepper\" }]", DocumentRefusalKind.Invalid, "/steps/0/materials/1/id", "known: \"water\", \"salt\"" },
        { "[\"water\", \"salt\"]", "[\"water\", { \"id\": \"salt\", \"amount\": { \"value\": 6, \"unit\": \"g\" } }]", DocumentRefusalKind.Invalid, "/steps/0/materials/1/amount", "brings the use of \"salt\" to 6 g, but the list of materials has 5 g" },
        { "\"action\": \"charge\", \"vessel\": \"beaker\", \"materials\": [\"water\", \"salt\"]", "\"action\": \"discard\", \"vessel\": \"beaker\", \"materials\": [\"water\", { \"id\": \"salt\", \"amount\": { \"value\": 6, \"unit\": \"g\" } }]", DocumentRefusalKind.Invalid, "/steps/0/materials/1/amount", "moves all of them" },
        { "[\"water\", \"salt\"]", "[\"water\", { \"id\": \"salt\", \"amount\": { \"value\": 1, \"unit\": \"mmol\" } }, { \"id\": \"salt\", \"amount\": { \"value\": 6, \"unit\": \"g\" } }]", DocumentRefusalKind.Invalid, "/steps/0/materials/2/amount", "brings the use of \"salt\" to 6 g, but the list of materials has 5 g" },
        { "[\"water\", \"salt\"]", "[\"water\", 7]", DocumentRefusalKind.Invalid, "/steps/0/materials/1", "must be a material id" },
        { "\"id\": \"2\"", "\"id\": \"1\"", DocumentRefusalKind.Invalid, "/steps/1/id", "already the id of entry 0" },
        { "\"volume\": { \"value\": 100, \"unit\": \"mL\" } } ]", "\"volume\": { \"value\": 100, \"unit\": \"mL\" } }, { \"id\": \"jar\", \"kind\": \"jar\" } ]", DocumentRefusalKind.Invalid, "/vessels/1/id", "never used" },
        { "\"volume\": { \"value\": 100, \"unit\": \"mL\" } } ]", "\"volume\": { \"value\": 0.0005, \"unit\": \"µL\" } } ]", DocumentRefusalKind.Invalid, "/vessels/0/volume/value", "less than 1 µL" },
        { "\"volume\": { \"value\": 100, \"unit\": \"mL\" } } ]", "\"volume\": { \"value\": 0, \"unit\": \"mL\" } } ]", DocumentRefusalKind.Invalid, "/vessels/0/volume/value", "less than 1 µL" },
        { "\"volume\": { \"value\": 100, \"unit\": \"mL\" } } ]", "\"inspectedOn\": \"2031-05-29\" } ], \"plannedOn\": \"2031-05-28\"", DocumentRefusalKind.Invalid, "/vessels/0/inspectedOn", "is after the planned day (2031-05-28)" },
        { "\"cas\": \"7647-14-5\"", "\"cas\": \"7647-14-6\"", DocumentRefusalKind.Invalid, "/materials/1/substance/cas", "the last digit should be 5" },
        { "\"cas\": \"7647-14-5\"", "\"cas\": \"7647145\"", DocumentRefusalKind.Invalid, "/materials/1/substance/cas", "does not look like a CAS number" },
        { "{ \"cas\": \"7647-14-5\" }", "{}", DocumentRefusalKind.Invalid, "/materials/1/substance", "names no substance" },
        { "\"substance\": { \"cas\": \"7647-14-5\" }, ", "", DocumentRefusalKind.Invalid, "/materials/1/substance", "is missing" },
        { "\"role\": \"reagent\"", "\"role\": \"reactant\"", DocumentRefusalKind.Invalid, "/materials/1/role", "Allowed: reagent, solvent" },
        { "\"title\": \"Salt in water (invented)\",", "", DocumentRefusalKind.Invalid, "/title", "is missing" },
        { "\"title\": \"Salt in water (invented)\",", "\"title\": \"a\\u0007b\",", DocumentRefusalKind.Invalid, "/title", "U+0007" },
        { "\"title\": \"Salt in water (invented)\",", "\"title\": \"a\\u202eb\",", DocumentRefusalKind.Invalid, "/title", "invisible character U+202E" },
        { "\"title\": \"Salt in water (invented)\",", "\"title\": \"a\\nb\",", DocumentRefusalKind.Invalid, "/title", "U+000A" },
        { "\"title\": \"Salt in water (invented)\",", "\"title\": [],", DocumentRefusalKind.Invalid, "/title", "must be a string, but is an array" },
        { "\"title\": \"Salt in water (invented)\",", "\"title\": \"x\", \"plannedOn\": \"2031-02-30\",", DocumentRefusalKind.Invalid, "/plannedOn", "must be a date" },
        { "\"title\": \"Salt in water (invented)\",", "\"title\": \"x\", \"plannedOn\": \"28.5.2031\",", DocumentRefusalKind.Invalid, "/plannedOn", "must be a date" },
        { "\"title\": \"Salt in water (invented)\",", "\"title\": \"x\", \"plannedOn\": \"0131-05-28\",", DocumentRefusalKind.Invalid, "/plannedOn", "no credible date" },
        { "\"title\": \"Salt in water (invented)\",", "\"title\": \"x\", \"lone\": \"no\",", DocumentRefusalKind.Invalid, "/lone", "must be true or false" },
        { "preapproval/procedure/1", "preapproval/procedure/2", DocumentRefusalKind.Invalid, "/schema", "preapproval/procedure/1" },
        { "\"title\":", "\"titel\": \"x\", \"title\":", DocumentRefusalKind.UnknownMember, "/titel", "did you mean \"title\"?" },
        { "\"unit\": \"g\"", "\"unit\": \"g\", \"note\": 1", DocumentRefusalKind.UnknownMember, "/materials/1/amount/note", "known here: value, unit" },
        { "\"title\":", "\"a/b~c\": 1, \"title\":", DocumentRefusalKind.UnknownMember, "/a~1b~0c", "is not a known member" },
        { "\"title\":", "\"title\": \"twice\", \"title\":", DocumentRefusalKind.NotJson, "/title", "written twice" },
        { "\"unit\": \"g\"", "\"unit\": \"g\", \"unit\": \"mg\"", DocumentRefusalKind.NotJson, "/materials/1/amount/unit", "written twice" },
        { "\"unit\": \"g\" }", "\"unit\": \"g\", }", DocumentRefusalKind.NotJson, "/materials/1/amount", "remove the comma" },
        { "\"value\": 5,", "\"value\": NaN,", DocumentRefusalKind.NotJson, "/materials/1/amount/value", "NaN" },
        { "\"value\": 5,", "\"value\": 05,", DocumentRefusalKind.NotJson, "/materials/1/amount/value", "not JSON here" },
        { "\"value\": 5,", "\"value\": 5, // five\n", DocumentRefusalKind.NotJson, "/materials/1/amount", "not JSON here" },
        { "\"Salt in water (invented)\"", "\"\\ud800\"", DocumentRefusalKind.NotJson, "/title", "lone surrogate" },
    };

    [Theory]
    [MemberData(nameof(OneFault))]
    public void Read_OneFault_IsReportedOnceWithItsPath(string old, string replacement, DocumentRefusalKind kind, string path, string words)
    {
        DocumentRefusal refusal = Refused(Samples.SmallWith(old, replacement));

        Assert.Equal(kind, refusal.Kind);
        Fault fault = Assert.Single(refusal.Faults);
        Assert.Equal(path, fault.Path);
        Assert.Contains(words, fault.Message, StringComparison.Ordinal);
    }

    /// <summary>Parts that the small document does not have.</summary>
    public static TheoryData<string, string, string, string> OneFaultOfTheFullDocument => new()
    {
        { "\"value\": 20, \"unit\": \"vol%\"", "\"value\": 30, \"unit\": \"vol%\"", "/materials/3/mixture", "adds up to 110 %" },
        { "\"value\": 20, \"unit\": \"vol%\"", "\"value\": 20, \"unit\": \"wt%\"", "/materials/3/mixture", "mixes vol% and wt%" },
        { "\"mixture\": [", "\"substance\": { \"cas\": \"110-54-3\" }, \"mixture\": [", "/materials/3/mixture", "keep one of the two" },
        { "\"value\": 2.0, \"unit\": \"mol/L\"", "\"value\": 2.0, \"unit\": \"M\"", "/materials/2/solution/concentration/unit", "did you mean \"mol/L\"?" },
        { "\"value\": 2.0, \"unit\": \"mol/L\"", "\"value\": 120, \"unit\": \"wt%\"", "/materials/2/solution/concentration/value", "more than 100 %" },
        { "\"ppm\": 5", "\"ppm\": -5", "/materials/1/peroxideTest/ppm", "must be from 0 to 1000000" },
        { "\"value\": 10, \"unit\": \"bar(g)\"", "\"value\": -0.5, \"unit\": \"bar(g)\"", "/vessels/0/rating/value", "below the atmosphere" },
        { "\"value\": 10, \"unit\": \"bar(g)\"", "\"value\": 10, \"unit\": \"barg\"", "/vessels/0/rating/unit", "did you mean \"bar(g)\"?" },
        { "\"device\": \"bursting disc\"", "\"device\": \"bursting disk\"", "/vessels/0/relief/device", "did you mean \"bursting disc\"?" },
        { "\"wallMm\": 3,", "\"wallMm\": 12.7,", "/vessels/0/glassTube/wallMm", "below half the outside diameter" },
        { "\"wallMm\": 3,", "\"wallMm\": 1e-12,", "/vessels/0/glassTube/wallMm", "from 0.1 mm to 0.45 times the outside diameter" },
        { "\"wallMm\": 3,", "\"wallMm\": 12.6,", "/vessels/0/glassTube/wallMm", "from 0.1 mm to 0.45 times the outside diameter" },
        { "\"kind\": \"thick-walled glass tube\"", "\"kind\": \"steel autoclave\"", "/vessels/0/glassTube", "the kind of the vessel is not of glass" },
        { "\"kind\": \"thick-walled glass tube\"", "\"kind\": \"flame-sealed tube\"", "/vessels/0/relief", "no fitting for a relief device" },
        { "\"device\": \"bursting disc\"", "\"device\": \"rupture disk\"", "/vessels/0/relief/device", "did you mean \"bursting disc\"?" },
        { "\"device\": \"bursting disc\"", "\"device\": \"Safety valve\"", "/vessels/0/relief/device", "did you mean \"valve\"?" },
        { "\"value\": 6, \"unit\": \"bar(g)\"", "\"value\": 0, \"unit\": \"bar(g)\"", "/vessels/0/relief/set/value", "must be above 0 bar(g)" },
        { "\"value\": 6, \"unit\": \"bar(g)\"", "\"value\": 1.01325, \"unit\": \"bar\"", "/vessels/0/relief/set/value", "must be above 0 bar(g)" },
        { "\"wallMm\": 3,", "", "/vessels/0/glassTube/wallMm", "give the thickness of the wall" },
        { "\"wallMm\": 3,", "\"wallMm\": { \"value\": 3, \"unit\": \"mm\" },", "/vessels/0/glassTube/wallMm", "the wall in mm as a number" },
        { "\"outsideDiameterMm\": 25.4", "\"outsideDiameterMm\": 2540", "/vessels/0/glassTube/outsideDiameterMm", "must be from 1 to 500" },
        { "\"outsideDiameterMm\": 25.4", "\"outsideDiameterMm\": 0.5", "/vessels/0/glassTube/outsideDiameterMm", "must be from 1 to 500" },
        { "\"annealed\": false", "\"annealed\": \"no\"", "/vessels/0/glassTube/annealed", "must be true or false" },
        { "\"device\": \"bursting disc\", ", "", "/vessels/0/relief/device", "one of valve" },
        { "\"value\": 6, \"unit\": \"bar(g)\"", "\"value\": 0.5, \"unit\": \"bar\"", "/vessels/0/relief/set/value", "below the atmosphere" },
        { "\"value\": 6, \"unit\": \"bar(g)\"", "\"value\": 6, \"unit\": \"mL\"", "/vessels/0/relief/set/unit", "does not measure a pressure" },
        { "\"value\": 5, \"unit\": \"kPa\"", "\"value\": -1, \"unit\": \"kPa\"", "/steps/1/pressure/value", "below a perfect vacuum" },
        { "\"gas\": \"nitrogen\", ", "", "/steps/2/gas", "\"pressurise\" needs the gas" },
        { "\"headspace\": { \"cas\": \"7440-37-1\" }", "\"headspace\": { \"cas\": \"7440-37-2\" }", "/steps/3/headspace/cas", "wrong check digit" },
        { "\"headspace\": { \"cas\": \"7440-37-1\" }", "\"headspace\": 18", "/steps/3/headspace", "must be a gas" },
        { "\"heatSource\": \"metal block\"", "\"heatSource\": \"bunsen burner\"", "/steps/5/heatSource", "Allowed: metal block" },
        { "\"to\": \"flask\"", "\"to\": \"flusk\"", "/steps/9/to", "did you mean \"flask\"?" },
        { "{ \"step\": \"6\"", "{ \"step\": \"60\"", "/reactions/0/step", "no step has the id \"60\"" },
        { "{ \"material\": \"salt\", \"equivalents\": 1 }", "{ \"material\": \"salt\", \"equivalents\": 0 }", "/reactions/0/consumes/0/equivalents", "above 0" },
        { "\"accumulation\": 0.4", "\"accumulation\": 40", "/reactions/0/accumulation", "must be from 0 to 1" },
        { "\"value\": -15, \"unit\": \"kJ/mol\"", "\"value\": -15, \"unit\": \"J/g\"", "/reactions/0/heat/unit", "allowed here: kJ/mol" },
        { "\"steps\": [\"6\"]", "\"steps\": [\"66\"]", "/safeguards/0/steps/0", "no step has the id" },
        { "\"class D powder\"", "\"class E powder\"", "/fireResponse/agents/2", "did you mean \"class D powder\"?" },
        { "\"id\": \"own\"", "\"id\": \"own\", \"form\": \"\"", "/materials/4/form", "is blank" },
        { "\"materials\": [\"ether\", \"eluent\"]", "\"materials\": [\"ether\", \"elvent\"]", "/waste/0/materials/1", "did you mean \"eluent\"?" },
        { "\"limiting\": \"salt\"", "\"limiting\": \"sugar\"", "/scale/limiting", "no material has the id" },
        { "\"first time\"", "\"novice\"", "/people/experience", "Allowed: first time, under supervision or experienced" },
        { "\"value\": 120, \"unit\": \"m³\"", "\"value\": 120, \"unit\": \"bar\"", "/place/roomVolume/unit", "does not measure a room volume" },
        { "\"value\": 12, \"unit\": \"vol%\"", "\"value\": 1, \"unit\": \"vol%\"", "/materials/4/substance/properties/upperFlammableLimit", "not above the lower" },
        { "\"action\": \"transfer\", \"vessel\": \"tube\", \"to\": \"flask\"", "\"action\": \"stir\", \"vessel\": \"flask\"", "/vessels/1/id", "nothing is ever put into" },
    };

    [Theory]
    [MemberData(nameof(OneFaultOfTheFullDocument))]
    public void Read_OneFaultOfTheFullDocument_IsReportedWithItsPath(string old, string replacement, string path, string words)
    {
        Assert.Contains(old, Samples.Full, StringComparison.Ordinal);
        string json = Samples.Full.Replace(old, replacement, StringComparison.Ordinal);
        if (path is "/vessels/1/id")
        {
            json = json.Replace("\"materials\": [ { \"id\": \"eluent\" } ]", "\"materials\": []", StringComparison.Ordinal);
        }

        DocumentRefusal refusal = Refused(Samples.Utf8(json));

        Assert.Equal(DocumentRefusalKind.Invalid, refusal.Kind);
        Fault fault = Assert.Single(refusal.Faults);
        Assert.Equal(path, fault.Path);
        Assert.Contains(words, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_FaultsOfFormAndOfMeaning_AreAllReportedTogether()
    {
        JsonObject json = Samples.Parsed(Samples.Small);
        json["titel"] = "x";
        json["materials"]![0]!["amount"]!["unit"] = "bar";
        json["materials"]![1]!["amount"]!["value"] = -5;
        json["steps"]![0]!["temperature"]!["value"] = -300;
        json["steps"]![1]!["vessel"] = "tub";

        DocumentRefusal refusal = Refused(Samples.Utf8(json.ToJsonString()));

        Assert.Equal(DocumentRefusalKind.UnknownMember, refusal.Kind);
        Assert.Equal(
            "/materials/0/amount/unit /materials/1/amount/value /steps/0/temperature/value /steps/1/vessel /titel",
            refusal.Faults.InOrder());
    }

    [Fact]
    public void Read_SameMaterialIdTwice_NamesTheFirst()
    {
        DocumentRefusal refusal = Refused(Samples.SmallWith("\"id\": \"salt\"", "\"id\": \"water\""));

        Assert.Equal("/materials/1/id /steps/0/materials/1", refusal.Faults.InOrder());
        Assert.Contains("already the id of entry 0", refusal.Faults.Single(fault => fault.Path is "/materials/1/id").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_UnreadableMaterialId_DoesNotBlameTheStepsThatNameIt()
    {
        DocumentRefusal refusal = Refused(Samples.SmallWith("\"id\": \"salt\"", "\"id\": 5"));

        Assert.Equal("/materials/1/id", refusal.Faults.InOrder());
    }

    [Fact]
    public void Read_FiveMegabytes_IsTooLarge()
    {
        byte[] json = Samples.SmallWith("\"title\":", $"\"purpose\": \"{new string('x', 5_000_000)}\", \"title\":");

        DocumentRefusal refusal = Refused(json);

        Assert.Equal(DocumentRefusalKind.TooLarge, refusal.Kind);
        Fault fault = Assert.Single(refusal.Faults);
        Assert.Equal("", fault.Path);
        Assert.Contains("at most 1000000 (1 MB)", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_LongText_SaysHowLongItMayBe()
    {
        DocumentRefusal refusal = Refused(Samples.SmallWith("Salt in water (invented)", new string('x', 301)));

        Assert.Equal(new Fault("/title", "has 301 characters; at most 300 are allowed"), Assert.Single(refusal.Faults));
    }

    [Fact]
    public void Read_DeepNesting_IsRefused()
    {
        DocumentRefusal refusal = Refused(Samples.Utf8(string.Concat(Enumerable.Repeat("[", 100_000))));

        Assert.Equal(DocumentRefusalKind.NotJson, refusal.Kind);
        Assert.Contains("deeper than 32 levels", Assert.Single(refusal.Faults).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_InvalidUtf8_IsRefusedWithItsPath()
    {
        byte[] json = Samples.Utf8(Samples.Small);
        json[json.AsSpan().IndexOf("Salt"u8)] = 0xFF;

        DocumentRefusal refusal = Refused(json);

        Assert.Equal(DocumentRefusalKind.NotJson, refusal.Kind);
        Fault fault = Assert.Single(refusal.Faults);
        Assert.Equal("/title", fault.Path);
        Assert.Contains("invalid UTF-8", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "is empty")]
    [InlineData("\uFEFF{}", "byte order mark")]
    [InlineData("{} {}", "not JSON here")]
    [InlineData("hello", "not JSON here")]
    [InlineData("{", "not JSON here")]
    public void Read_NotJson_SaysSo(string text, string words)
    {
        DocumentRefusal refusal = Refused(Encoding.UTF8.GetBytes(text));

        Assert.Equal(DocumentRefusalKind.NotJson, refusal.Kind);
        Assert.Contains(words, Assert.Single(refusal.Faults).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("7")]
    public void Read_NoObject_IsRefusedAtTheRoot(string text)
    {
        DocumentRefusal refusal = Refused(Encoding.UTF8.GetBytes(text));

        Assert.Equal(DocumentRefusalKind.Invalid, refusal.Kind);
        Assert.Contains(refusal.Faults, fault => fault.Path.Length == 0 && fault.Message.Contains("as an object", StringComparison.Ordinal));
    }

    private static DocumentRefusal Refused(byte[] json)
    {
        Result<ProcedureDocument, DocumentRefusal> result = DocumentReader.Read(json);
        Assert.False(result.IsOk, "The document was accepted.");
        return result.Error;
    }
}
