using System.Text.Json.Nodes;

namespace PreApproval.Documents.Tests.Reading;

public sealed class DraftTests
{
    [Fact]
    public void ReadDraft_ValidDocument_HasNoFaults()
    {
        Result<DraftReading, DocumentRefusal> draft = DocumentReader.ReadDraft(Samples.Utf8(Samples.Small));

        Assert.True(draft.IsOk);
        Assert.Equal("Salt in water (invented)", draft.Value.Title);
        Assert.Empty(draft.Value.Faults);
    }

    [Fact]
    public void ReadDraft_WrongValuesAndMissingMembers_AreKeptAsFaults()
    {
        Result<DraftReading, DocumentRefusal> draft = DocumentReader.ReadDraft("""{"schema":"preapproval/procedure/1","title":"Begun","steps":[{"id":"1","temperature":"hot"}]}"""u8.ToArray());

        Assert.True(draft.IsOk);
        Assert.Equal("Begun", draft.Value.Title);
        Assert.Equal(
            "/materials /steps/0/action /steps/0/temperature /steps/0/vessel /vessels",
            draft.Value.Faults.InOrder());
    }

    [Fact]
    public void ReadDraft_WithoutTitle_HasAnEmptyOne()
    {
        Result<DraftReading, DocumentRefusal> draft = DocumentReader.ReadDraft("{}"u8.ToArray());

        Assert.True(draft.IsOk);
        Assert.Equal("", draft.Value.Title);
    }

    [Fact]
    public void ReadUnfinished_VesselThatNoStepNames_IsReadAndTold()
    {
        Result<UnfinishedReading, DocumentRefusal> read = DocumentReader.ReadUnfinished(WithVessel("""{ "id": "jar", "kind": "jar" }"""));

        Assert.True(read.IsOk);
        Assert.Equal("jar", read.Value.Document.Vessels[1].Id);
        Assert.Equal([1], read.Value.Unnamed);
        Assert.Equal("/vessels/1/id", Assert.Single(read.Value.Faults).Path);
    }

    [Fact]
    public void ReadUnfinished_AnythingElseWrong_IsRefusedWithAllOfIt()
    {
        Result<UnfinishedReading, DocumentRefusal> read = DocumentReader.ReadUnfinished(WithVessel("""{ "id": "jar", "kind": "jar", "volume": { "value": -1, "unit": "mL" } }"""));

        Assert.False(read.IsOk);
        Assert.Equal("/vessels/1/id /vessels/1/volume/value", read.Error.Faults.InOrder());
    }

    private static byte[] WithVessel(string vessel)
    {
        JsonObject document = JsonNode.Parse(Samples.Small)!.AsObject();
        document["vessels"]!.AsArray().Add(JsonNode.Parse(vessel));
        return System.Text.Encoding.UTF8.GetBytes(document.ToJsonString());
    }

    [Theory]
    [InlineData("{", DocumentRefusalKind.NotJson)]
    [InlineData("""{"title":"a","title":"b"}""", DocumentRefusalKind.NotJson)]
    [InlineData("""{"title":5,"titel":"b"}""", DocumentRefusalKind.UnknownMember)]
    public void ReadDraft_NotJsonOrUnknownMember_IsRefusedForThatAlone(string json, DocumentRefusalKind kind)
    {
        Result<DraftReading, DocumentRefusal> draft = DocumentReader.ReadDraft(Samples.Utf8(json));

        Assert.False(draft.IsOk);
        Assert.Equal(kind, draft.Error.Kind);
        Assert.Single(draft.Error.Faults);
    }

    [Fact]
    public void ReadDraft_OverOneMegabyte_IsTooLarge()
    {
        Result<DraftReading, DocumentRefusal> draft = DocumentReader.ReadDraft(new byte[DocumentReader.LargestBytes + 1]);

        Assert.False(draft.IsOk);
        Assert.Equal(DocumentRefusalKind.TooLarge, draft.Error.Kind);
    }
}
