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
