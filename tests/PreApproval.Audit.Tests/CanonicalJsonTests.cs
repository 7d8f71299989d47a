using System.Text;
using System.Text.Json.Nodes;

namespace PreApproval.Audit.Tests;

/// <summary>RFC 8785. Published texts: cyberphone/json-canonicalization at commit 19d51d7f (Apache-2.0), testdata; inputs shortened in white space only.</summary>
public sealed class CanonicalJsonTests
{
    public static TheoryData<string, string> Texts() => new()
    {
        { """[ 56, { "d": true, "10": null, "1": [ ] } ]""", "099601b171cafed97c333f8878d68e7f8c8f795412adb34b2fdcf0e7c7beac42" },
        { """{ "peach": "This sorting order", "péché": "is wrong according to French", "pêche": "but canonicalization MUST", "sin": "ignore locale" }""", "d99d0ebdcb0033cb858cfa830ae46bc0fb3309413b271f1da828c89901a27ed5" },
        { """{ "1": {"f": {"f": "hi","F": 5} ,"\n": 56.0}, "10": { }, "": "empty", "a": { }, "111": [ {"e": "yes","E": "no" } ], "A": { } }""", "605f65004ec2db7692522a0852c22f1c989e036d547e88963d1a3143cf3195d5" },
        { """{ "Unnormalized Unicode":"A\u030a" }""", "0d99aad92a125196ff887876643fd3206786a84ddce2cee52ba4ad256d2381d3" },
        { """{ "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001], "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false] }""", "2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb" },
        { """{ "\u20ac": "Euro Sign", "\r": "Carriage Return", "\u000a": "Newline", "1": "One", "\u0080": "Control\u007f", "\ud83d\ude02": "Smiley", "\u00f6": "Latin Small Letter O With Diaeresis", "\ufb33": "Hebrew Letter Dalet With Dagesh", "</script>": "Browser Challenge" }""", "6af595a9aa80110b964b4de3f82a05fa6ae7423005019bacfa2620dddc4e94d1" },
    };

    [Theory]
    [MemberData(nameof(Texts))]
    public void TryCanonicalize_PublishedText_PublishedDigest(string json, string sha256)
    {
        Assert.True(CanonicalJson.TryCanonicalize(Encoding.UTF8.GetBytes(json), out byte[] canonical, out string error), error);
        Assert.Equal("sha256:" + sha256, CanonicalJson.Digest(canonical));
    }

    /// <summary>The published output file, typed in.</summary>
    [Fact]
    public void Serialize_PublishedValues_PublishedText()
    {
        JsonNode? node = JsonNode.Parse("""{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}""");
        Assert.Equal(
            """{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}""",
            Encoding.UTF8.GetString(CanonicalJson.Serialize(node)));
    }

    public static TheoryData<string> Files() => ProofVectors.Folder is { } folder
        ? [.. Directory.EnumerateFiles(Path.Combine(folder, "../rfc8785/input")).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal)]
        : ["(typed)"];

    /// <summary>The published files themselves where they are at hand; the typed text of RFC 8785 section 3.2.2 otherwise.</summary>
    [Theory]
    [MemberData(nameof(Files))]
    public void TryCanonicalize_PublishedFile_PublishedBytes(string name)
    {
        (byte[] input, byte[] output) = ProofVectors.Folder is { } folder
            ? (File.ReadAllBytes(Path.Combine(folder, "../rfc8785/input", name)), File.ReadAllBytes(Path.Combine(folder, "../rfc8785/output", name)))
            : ("""{"numbers":[333333333.33333329,1E30]}"""u8.ToArray(), """{"numbers":[333333333.3333333,1e+30]}"""u8.ToArray());
        Assert.True(CanonicalJson.TryCanonicalize(input, out byte[] canonical, out string error), error);
        Assert.Equal(output, canonical);
    }

    /// <summary>RFC 8785 section 3.2.2.2: which characters are escaped, and how.</summary>
    [Fact]
    public void Serialize_EveryCharacterBelowSpace_EscapedAsThePublishedRuleSays()
    {
        string all = new([.. Enumerable.Range(0, 32).Select(code => (char)code)]);
        Assert.Equal(
            """
            "\u0000\u0001\u0002\u0003\u0004\u0005\u0006\u0007\b\t\n\u000b\f\r\u000e\u000f\u0010\u0011\u0012\u0013\u0014\u0015\u0016\u0017\u0018\u0019\u001a\u001b\u001c\u001d\u001e\u001f"
            """,
            Encoding.UTF8.GetString(CanonicalJson.Serialize(JsonValue.Create(all))));
    }

    [Fact]
    public void Serialize_DeleteSlashAndLineSeparators_StandAsTheyAre() =>
        Assert.Equal("\"/\u007f\u2028\u2029<>&'+\"", Encoding.UTF8.GetString(CanonicalJson.Serialize(JsonValue.Create("/\u007f\u2028\u2029<>&'+"))));

    /// <summary>RFC 8785 section 3.2.3: UTF-16 code units, so that U+1F602 (D83D DE02) comes before U+FB33.</summary>
    [Fact]
    public void Serialize_NamesBeyondTheBasicPlane_SortedByUtf16CodeUnits()
    {
        var node = new JsonObject { ["\uFB33"] = 1, ["\U0001F602"] = 2, ["€"] = 3 };
        Assert.Equal("{\"€\":3,\"\U0001F602\":2,\"\uFB33\":1}", Encoding.UTF8.GetString(CanonicalJson.Serialize(node)));
    }

    [Fact]
    public void Serialize_Null_Null() => Assert.Equal("null"u8.ToArray(), CanonicalJson.Serialize(null));

    [Fact]
    public void Serialize_ValuesOfDotNetTypes_AsTheirJsonText()
    {
        var node = new JsonArray(5L, 2.50m, 1.5f, (byte)7, true, "x", JsonValue.Create(new Guid("0191a0a0-0000-7000-8000-000000000001")));
        Assert.Equal("""[5,2.5,1.5,7,true,"x","0191a0a0-0000-7000-8000-000000000001"]""", Encoding.UTF8.GetString(CanonicalJson.Serialize(node)));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Serialize_NotFinite_Throws(double number)
    {
        Assert.Throws<FormatException>(() => CanonicalJson.Serialize(JsonValue.Create(number)));
        Assert.Throws<FormatException>(() => CanonicalJson.Serialize(JsonValue.Create((float)number)));
    }

    [Theory]
    [InlineData(new[] { '\uD800' })]
    [InlineData(new[] { 'a', '\uDC00', 'b' })]
    [InlineData(new[] { '\uDE02', '\uD83D' })]
    public void Serialize_LoneSurrogate_Throws(char[] text)
    {
        Assert.Throws<FormatException>(() => CanonicalJson.Serialize(JsonValue.Create(new string(text))));
        Assert.Throws<FormatException>(() => CanonicalJson.Serialize(new JsonObject { [new string(text)] = 1 }));
    }

    [Theory]
    [InlineData("""{"a":1,"a":1}""")]
    [InlineData("""{"a":1,"\u0061":1}""")]
    [InlineData("""[{"x":{"b":1,"c":2,"b":3}}]""")]
    public void TryCanonicalize_DuplicateNames_Refused(string json)
    {
        AssertRefused(Encoding.UTF8.GetBytes(json));
        Assert.Throws<FormatException>(() => CanonicalJson.Serialize(JsonNode.Parse(json)));
    }

    [Theory]
    [InlineData("")]
    [InlineData(" ")]
    [InlineData("{")]
    [InlineData("[1,]")]
    [InlineData("{\"a\":1,}")]
    [InlineData("// comment\n1")]
    [InlineData("1 2")]
    [InlineData("01")]
    [InlineData("+1")]
    [InlineData("1.")]
    [InlineData(".5")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("1e400")]
    [InlineData("-1e400")]
    [InlineData("'a'")]
    [InlineData("\"\t\"")]
    [InlineData("\"\\ud800\"")]
    [InlineData("\"\\udc00\\ud800\"")]
    [InlineData("{\"\\ud800\":1}")]
    [InlineData("\uFEFF1")]
    [InlineData("True")]
    public void TryCanonicalize_NotIJson_Refused(string json) => AssertRefused(Encoding.UTF8.GetBytes(json));

    [Theory]
    [InlineData("22ff22")]
    [InlineData("22c080 22")]
    [InlineData("22eda08022")]
    [InlineData("22f490808022")]
    [InlineData("22e282 22")]
    public void TryCanonicalize_InvalidUtf8_Refused(string hex) => AssertRefused(Convert.FromHexString(hex.Replace(" ", string.Empty, StringComparison.Ordinal)));

    [Fact]
    public void TryCanonicalize_DeepestNesting_AcceptedAndOneDeeperRefused()
    {
        static byte[] Nested(int depth) => Encoding.ASCII.GetBytes(new string('[', depth) + new string(']', depth));
        Assert.True(CanonicalJson.TryCanonicalize(Nested(CanonicalJson.LargestDepth), out byte[] canonical, out _));
        Assert.Equal(Nested(CanonicalJson.LargestDepth), canonical);
        AssertRefused(Nested(CanonicalJson.LargestDepth + 1));

        JsonNode node = new JsonArray();
        for (int i = 0; i < CanonicalJson.LargestDepth; i++)
        {
            node = new JsonArray(node);
        }

        Assert.Throws<FormatException>(() => CanonicalJson.Serialize(node));
    }

    /// <summary>Known digests of SHA-256: FIPS 180-4 examples ("abc" and the empty message).</summary>
    [Fact]
    public void Digest_KnownMessages_KnownDigests()
    {
        Assert.Equal("sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", CanonicalJson.Digest("abc"u8));
        Assert.Equal("sha256:e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855", CanonicalJson.Digest([]));
    }

    private static void AssertRefused(byte[] json)
    {
        Assert.False(CanonicalJson.TryCanonicalize(json, out byte[] canonical, out string error));
        Assert.Empty(canonical);
        Assert.NotEmpty(error);
    }
}
