using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using PreApproval.Audit;

namespace PreApproval.Documents.Tests.Reading;

public sealed class RoundTripTests
{
    [Theory]
    [InlineData(Samples.Full)]
    [InlineData(Samples.Small)]
    public void Canonical_OfReadDocument_EqualsCanonicalOfTheBytes(string json)
    {
        byte[] bytes = Samples.Utf8(json);
        Assert.True(CanonicalJson.TryCanonicalize(bytes, out byte[] expected, out string error), error);

        byte[] written = DocumentWriter.Canonical(DocumentReader.Read(bytes).Value!);

        Assert.Equal(Encoding.UTF8.GetString(expected), Encoding.UTF8.GetString(written));
        Assert.Equal(CanonicalJson.Digest(expected), DocumentWriter.Digest(DocumentReader.Read(bytes).Value!));
    }

    [Fact]
    public void Read_of_mutated_document_never_throws_and_every_fault_points_into_it() =>
        Mutations.One.Sample(root =>
            {
                byte[] bytes = Samples.Utf8(root.ToJsonString());

                Result<ProcedureDocument, DocumentRefusal> result = DocumentReader.Read(bytes);
                Result<DraftReading, DocumentRefusal> draft = DocumentReader.ReadDraft(bytes);

                Assert.Equal(result.IsOk, draft.IsOk && draft.Value.Faults.Count == 0);
                foreach (Fault fault in result.Error?.Faults ?? [])
                {
                    Assert.True(PointsInto(root, fault.Path), $"{fault.Path}: {fault.Message}");
                    Assert.NotEmpty(fault.Message);
                }
            }, iter: 1_500);

    [Fact]
    public void Read_of_bytes_with_one_byte_changed_never_throws() =>
        Gen.Select(Gen.Int[0, Samples.Utf8(Samples.Full).Length - 1], Gen.Byte).Sample((place, value) =>
        {
            byte[] bytes = Samples.Utf8(Samples.Full);
            bytes[place] = value;

            Result<ProcedureDocument, DocumentRefusal> result = DocumentReader.Read(bytes);

            Assert.True(result.IsOk || result.Error.Faults.Count > 0);
        }, iter: 1_500);

    /// <summary>The place exists, or its parent does: a missing member is reported where it should stand.</summary>
    private static bool PointsInto(JsonNode root, string pointer)
    {
        if (pointer.Length == 0)
        {
            return true;
        }

        JsonNode? node = root;
        string[] names = [.. pointer.Split('/').Skip(1).Select(name => name.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal))];
        foreach (string name in names.SkipLast(1))
        {
            node = node switch
            {
                JsonObject record => record[name],
                JsonArray list when int.TryParse(name, CultureInfo.InvariantCulture, out int index) && index < list.Count => list[index],
                _ => null,
            };
        }

        return node switch
        {
            JsonObject => true,
            JsonArray list => int.TryParse(names[^1], CultureInfo.InvariantCulture, out int last) && last < list.Count,
            _ => false,
        };
    }
}
