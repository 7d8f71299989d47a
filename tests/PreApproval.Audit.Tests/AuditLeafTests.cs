using System.Text;
using CsCheck;

namespace PreApproval.Audit.Tests;

/// <summary>The form of a leaf. Expected bytes are written out by hand from the rules of RFC 8785.</summary>
public sealed class AuditLeafTests
{
    private const string Digest = "sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

    private static AuditLeaf Small { get; } = new()
    {
        Tenant = "g1",
        Seq = 0,
        At = new DateTimeOffset(2025, 1, 31, 9, 30, 0, TimeSpan.Zero),
        Actor = new LeafActor("a1", "Ada Example", "member"),
        Action = "procedure.submit",
        Subject = new LeafSubject("procedure", "p1", 1),
    };

    private static AuditLeaf Full { get; } = Small with
    {
        Seq = 41,
        Actor = new LeafActor("a2", "Björn Exempel", "reviewer", "a9"),
        Subject = new LeafSubject("procedure", "p1", 2, "Sealed tube"),
        Before = "in-review",
        After = "approved",
        Reason = "Shield up; 10 °C below the limit.",
        Meaning = "approved as written",
        Authn = new LeafAuthentication("password", new DateTimeOffset(2025, 1, 31, 10, 29, 59, 123, 456, TimeSpan.FromHours(1))),
        PayloadSha256 = Digest,
        Ruleset = "engine 1.0.0",
        RequestId = "r-7",
        Summary = "Björn Exempel approved revision 2.",
    };

    [Fact]
    public void ToBytes_SmallestLeaf_CanonicalText() => Assert.Equal(
        """{"action":"procedure.submit","actor":{"id":"a1","name":"Ada Example","role":"member"},"at":"2025-01-31T09:30:00.000000Z","seq":0,"subject":{"id":"p1","revision":1,"type":"procedure"},"tenant":"g1","v":1}""",
        Encoding.UTF8.GetString(Small.ToBytes()));

    [Fact]
    public void ToBytes_FullLeaf_CanonicalText() => Assert.Equal(
        """{"action":"procedure.submit","actor":{"id":"a2","name":"Björn Exempel","onBehalfOf":"a9","role":"reviewer"},"after":"approved","at":"2025-01-31T09:30:00.000000Z","authn":{"at":"2025-01-31T09:29:59.123456Z","method":"password"},"before":"in-review","meaning":"approved as written","payloadSha256":"sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad","reason":"Shield up; 10 °C below the limit.","requestId":"r-7","ruleset":"engine 1.0.0","seq":41,"subject":{"id":"p1","revision":2,"title":"Sealed tube","type":"procedure"},"summary":"Björn Exempel approved revision 2.","tenant":"g1","v":1}""",
        Encoding.UTF8.GetString(Full.ToBytes()));

    [Fact]
    public void TryParse_FullLeaf_SameLeaf()
    {
        Assert.True(AuditLeaf.TryParse(Full.ToBytes(), out AuditLeaf? read, out string error), error);
        Assert.Equal(Full, read);
    }

    [Fact]
    public void TryParse_of_ToBytes_eq_itself() => Gen.Select(Gen.String[Gen.Char['\u0001', '\u024F'], 1, 40], Gen.Long[0, (1L << 53) - 1], Gen.Long[0, 3_000_000_000_000_000]).Sample((text, seq, microseconds) =>
    {
        string composed = text.Normalize(NormalizationForm.FormC);
        AuditLeaf leaf = Full with { Reason = composed, Tenant = composed, Seq = seq, At = DateTimeOffset.UnixEpoch.AddTicks(microseconds * TimeSpan.TicksPerMicrosecond) };
        return AuditLeaf.TryParse(leaf.ToBytes(), out AuditLeaf? read, out _) && leaf == read;
    }, iter: 2_000);

    /// <summary>Unicode Standard Annex 15: A followed by U+030A composes to U+00C5.</summary>
    [Fact]
    public void ToBytes_DecomposedText_Composed()
    {
        byte[] bytes = (Small with { Reason = "A\u030A" }).ToBytes();
        Assert.Contains("\"reason\":\"\u00C5\"", Encoding.UTF8.GetString(bytes), StringComparison.Ordinal);
    }

    [Fact]
    public void ToBytes_FinerThanMicroseconds_CutOff() => Assert.Contains(
        "\"at\":\"2025-01-31T09:30:00.000001Z\"", Encoding.UTF8.GetString((Small with { At = Small.At.AddTicks(19) }).ToBytes()), StringComparison.Ordinal);

    public static TheoryData<string, AuditLeaf> Impossible() => new()
    {
        { "negative sequence", Small with { Seq = -1 } },
        { "sequence beyond exact integers", Small with { Seq = 1L << 53 } },
        { "empty tenant", Small with { Tenant = string.Empty } },
        { "empty action", Small with { Action = string.Empty } },
        { "empty actor", Small with { Actor = new LeafActor(string.Empty, "n", "r") } },
        { "empty subject", Small with { Subject = new LeafSubject("procedure", string.Empty) } },
        { "revision zero", Small with { Subject = new LeafSubject("procedure", "p1", 0) } },
        { "lone surrogate", Small with { Reason = new string('\uD800', 1) } },
        { "short digest", Small with { PayloadSha256 = "sha256:00" } },
        { "upper-case digest", Small with { PayloadSha256 = Digest.ToUpperInvariant() } },
    };

    [Theory]
    [MemberData(nameof(Impossible))]
    public void ToBytes_ImpossibleLeaf_Throws(string why, AuditLeaf leaf)
    {
        Assert.NotEmpty(why);
        Assert.Throws<FormatException>(leaf.ToBytes);
    }

    /// <summary>C2SP tlog-tiles: the length of an entry is a 16-bit number.</summary>
    [Fact]
    public void ToBytes_LargestLeaf_FitsAndOneByteMoreThrows()
    {
        int spare = 65_535 - Small.ToBytes().Length - "\"reason\":\"\",".Length;
        byte[] largest = (Small with { Reason = new string('x', spare) }).ToBytes();
        Assert.Equal(65_535, largest.Length);
        Assert.True(AuditLeaf.TryParse(largest, out _, out _));
        Assert.Throws<FormatException>((Small with { Reason = new string('x', spare + 1) }).ToBytes);
        Assert.False(AuditLeaf.TryParse(Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(largest).Replace("xxxx", "xxxxx", StringComparison.Ordinal)), out _, out _));
    }

    /// <summary>Each is JSON that says nearly the same; none is what was hashed.</summary>
    [Theory]
    [InlineData("\"v\":1}", "\"v\":1} ")]
    [InlineData("{\"action\"", "{ \"action\"")]
    [InlineData("\"v\":1", "\"v\":1.0")]
    [InlineData("\"v\":1", "\"v\":2")]
    [InlineData("\"v\":1", "\"v\":\"1\"")]
    [InlineData("\"v\":1", "\"v\":1,\"w\":1")]
    [InlineData(",\"v\":1", "")]
    [InlineData("\"seq\":0", "\"seq\":-0")]
    [InlineData("\"seq\":0", "\"seq\":-1")]
    [InlineData("\"seq\":0", "\"seq\":0.5")]
    [InlineData("\"seq\":0", "\"seq\":null")]
    [InlineData("\"seq\":0,", "")]
    [InlineData("\"tenant\":\"g1\"", "\"tenant\":\"\\u00671\"")]
    [InlineData("\"tenant\":\"g1\"", "\"tenant\":\"\"")]
    [InlineData("\"tenant\":\"g1\"", "\"tenant\":\"A\u030A\"")]
    [InlineData("\"tenant\":\"g1\"", "\"tenant\":\"g1\",\"tenant\":\"g1\"")]
    [InlineData("09:30:00.000000Z", "09:30:00Z")]
    [InlineData("09:30:00.000000Z", "09:30:00.000000+00:00")]
    [InlineData("09:30:00.000000Z", "09:30:00.0000000Z")]
    [InlineData("09:30:00.000000Z", "25:30:00.000000Z")]
    [InlineData("\"role\":\"member\"", "\"role\":null")]
    [InlineData("\"role\":\"member\"", "\"role\":\"member\",\"seat\":\"x\"")]
    [InlineData("{\"id\":\"a1\",\"name\":\"Ada Example\",\"role\":\"member\"}", "\"a1\"")]
    [InlineData("\"revision\":1", "\"revision\":0")]
    [InlineData("\"revision\":1", "\"revision\":4294967297")]
    public void TryParse_NotWhatToBytesWrites_Refused(string was, string becomes)
    {
        string text = Encoding.UTF8.GetString(Small.ToBytes());
        string changed = text.Replace(was, becomes, StringComparison.Ordinal);
        Assert.NotEqual(text, changed, StringComparer.Ordinal);
        Assert.False(AuditLeaf.TryParse(Encoding.UTF8.GetBytes(changed), out AuditLeaf? leaf, out string error));
        Assert.Null(leaf);
        Assert.NotEmpty(error);
    }

    [Fact]
    public void TryParse_AnyByteChanged_RefusedOrAnotherHash() => Gen.Select(Gen.Int[0, Full.ToBytes().Length - 1], Gen.Int[1, 255]).Sample((at, mask) =>
    {
        byte[] original = Full.ToBytes();
        byte[] changed = [.. original];
        changed[at] ^= (byte)mask;
        return !AuditLeaf.TryParse(changed, out AuditLeaf? read, out _)
            || (read != Full && !MerkleTree.LeafHash(changed).AsSpan().SequenceEqual(MerkleTree.LeafHash(original)));
    }, iter: 2_000);
}
