namespace PreApproval.Documents.Tests.Reading;

/// <summary>A CAS number and a name that contradict each other.</summary>
public sealed class SubstanceIdentityTests
{
    [Theory]
    [InlineData("7732-18-5", "carbon disulfide")]
    [InlineData("64-17-5", "methanol")]
    [InlineData("7647-14-5", "sodium")]
    public void Read_NameOfAnotherSubstance_IsAFault(string cas, string name)
    {
        var read = DocumentReader.Read(Named(cas, name));

        Assert.False(read.IsOk);
        Fault fault = Assert.Single(read.Error.Faults);
        Assert.Equal("/materials/0/substance/name", fault.Path);
        Assert.Contains(cas, fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("7732-18-5", "water")]
    [InlineData("7732-18-5", "Water ")]
    [InlineData("64-17-5", "EtOH")]
    [InlineData("64-17-5", "ethanol, absolute")]
    [InlineData("64-17-5", "etanol")]
    [InlineData("7647-01-0", "hydrochloric acid")]
    [InlineData("110-54-3", "our old hexane")]
    [InlineData("7758-99-8", "copper(II) sulfate")]
    [InlineData("10217-52-4", "hydrazine")]
    public void Read_SynonymNearOrUnknownName_IsAccepted(string cas, string name) => Assert.True(DocumentReader.Read(Named(cas, name)).IsOk);

    private static byte[] Named(string cas, string name) =>
        Samples.SmallWith("{ \"cas\": \"7732-18-5\" }", $$"""{ "cas": "{{cas}}", "name": "{{name}}" }""");
}
