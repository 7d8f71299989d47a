namespace PreApproval.Documents.Tests.Reading;

public sealed class DocumentReaderTests
{
    [Theory]
    [InlineData(Samples.Full)]
    [InlineData(Samples.Small)]
    public void Read_ValidDocument_HasNoFaults(string json)
    {
        Result<ProcedureDocument, DocumentRefusal> result = DocumentReader.Read(Samples.Utf8(json));

        Assert.True(result.IsOk, string.Join('\n', result.Error?.Faults ?? []));
    }
}
