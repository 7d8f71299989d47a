using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents.Policies;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Tests.Policies;

public sealed class PolicyReaderTests
{
    /// <summary>By hand after RFC 8785: members in the order of their UTF-16 units, numbers as ECMAScript writes them.</summary>
    private const string CanonicalDefault =
        """{"cellFromJ":500,"dangerShare":0.9,"engineeredFromJ":5000,"fillCeiling":0.75,"fillGlass":0.5,"fillLow":0.05,"fillMetal":0.6666666666666666,"fillWaterMargin":0.1,"flashMarginK":5,"flashMarginMixtureK":15,"gassedOutS":600,"hotSurfaceShare":0.8,"inspectionMonths":12,"overshootK":15,"overshootWithCutOutK":5,"reviewFrom":"warning","shieldFromJ":50,"unratedCautionPa":50000,"unratedNothingPa":10000,"warningShareGlass":0.5,"warningShareMetal":0.75}""";

    [Fact]
    public void Canonical_OfTheDefault_IsTheFormOfRfc8785AndItsDigestThatOfTheBytes()
    {
        Assert.Equal(CanonicalDefault, Encoding.UTF8.GetString(PolicyWriter.Canonical(Policy.Default)));
        Assert.Equal("sha256:" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(CanonicalDefault))), PolicyWriter.Digest(Policy.Default));
    }

    [Fact]
    public void Read_WhatWasWritten_IsTheSamePolicy()
    {
        Policy policy = Policy.Default with { OvershootK = 12.5, FillMetal = 2.0 / 3, ReviewFrom = Severity.Caution };
        Assert.Equal(policy, PolicyReader.Read(PolicyWriter.Canonical(policy)).Value);
        Assert.Equal(policy, PolicyReader.Parse(PolicyWriter.Canonical(policy)));
    }

    [Theory]
    [InlineData("overshootK", null, DocumentRefusalKind.Invalid, "/overshootK")]
    [InlineData("overshootK", "\"15\"", DocumentRefusalKind.Invalid, "/overshootK")]
    [InlineData("overshootK", "-1", DocumentRefusalKind.Invalid, "/overshootK")]
    [InlineData("overshootK", "1e400", DocumentRefusalKind.Invalid, "/overshootK")]
    [InlineData("dangerShare", "0.6", DocumentRefusalKind.Invalid, "/warningShareMetal")]
    [InlineData("reviewFrom", "\"always\"", DocumentRefusalKind.Invalid, "/reviewFrom")]
    [InlineData("overshoot", "15", DocumentRefusalKind.UnknownMember, "/overshoot")]
    public void Read_Fault_HasThePathOfItsMember(string member, string? json, DocumentRefusalKind kind, string path)
    {
        DocumentRefusal refusal = PolicyReader.Read(Changed(member, json)).Error!;
        Assert.Equal(kind, refusal.Kind);
        Assert.Equal(path, Assert.Single(refusal.Faults).Path);
    }

    /// <summary>A version that was stored before the program knew a threshold begins at its default; a member that no program knows is no policy.</summary>
    [Fact]
    public void Parse_OlderVersion_TakesTheDefaultAndRefusesAStranger()
    {
        Assert.Equal(Policy.Default.GassedOutS, PolicyReader.Parse(Changed("gassedOutS", null)).GassedOutS);
        Assert.Throws<FormatException>(() => PolicyReader.Parse(Changed("overshoot", "15")));
    }

    [Fact]
    public void Changes_OfTwoPolicies_NameWhatDiffersWithUnitsAndDirection()
    {
        (PolicyLine before, PolicyLine after) = Assert.Single(PolicyLine.Changes(Policy.Default, Policy.Default with { UnratedNothingPa = 20_000 }));
        Assert.Equal(("unratedNothingPa", "0.1 bar", "0.2 bar", AgainstDefault.Looser), (after.Member, before.Value, after.Value, after.Against));
        Assert.Equal(AgainstDefault.Stricter, Assert.Single(PolicyLine.Changes(Policy.Default, Policy.Default with { ReviewFrom = Severity.Notice })).After.Against);
        Assert.Empty(PolicyLine.Changes(Policy.Default, Policy.Default with { }));
    }

    private static byte[] Changed(string member, string? json)
    {
        JsonObject policy = PolicyWriter.ToJson(Policy.Default);
        policy.Remove(member);
        string text = policy.ToJsonString();
        return Encoding.UTF8.GetBytes(json is null ? text : $"{text[..^1]},\"{member}\":{json}}}");
    }
}
