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
        Gen.Select(Gen.Int[0, 1].Select(which => which == 0 ? Samples.Full : Samples.Small), Gen.Int[0, 100_000], Gen.Int[0, Replacements.Length - 1].Select(which => Replacements[which]), Gen.Bool)
            .Sample((json, place, replacement, remove) =>
            {
                JsonNode root = Samples.Parsed(json);
                Mutate(root, place, replacement, remove);
                byte[] bytes = Samples.Utf8(root.ToJsonString());

                Result<ProcedureDocument, DocumentRefusal> result = DocumentReader.Read(bytes);
                Result<DraftReading, DocumentRefusal> draft = DocumentReader.ReadDraft(bytes);

                Assert.Equal(result.IsOk, draft.IsOk && draft.Value.Faults.Count == 0);
                foreach (Fault fault in result.Error?.Faults ?? [])
                {
                    Assert.True(PointsInto(root, fault.Path), $"{fault.Path}: {fault.Message}");
                    Assert.NotEmpty(fault.Message);
                }
            }, iter: 3_000);

    [Fact]
    public void Read_of_bytes_with_one_byte_changed_never_throws() =>
        Gen.Select(Gen.Int[0, Samples.Utf8(Samples.Full).Length - 1], Gen.Byte).Sample((place, value) =>
        {
            byte[] bytes = Samples.Utf8(Samples.Full);
            bytes[place] = value;

            Result<ProcedureDocument, DocumentRefusal> result = DocumentReader.Read(bytes);

            Assert.True(result.IsOk || result.Error.Faults.Count > 0);
        }, iter: 3_000);

    private static readonly string[] Replacements =
    [
        "null", "true", "-1", "0", "1e300", "1e-300", "\"\"", "\" \"", "\"x\"", "\"mL\"", "\"°C\"", "\"bar(g)\"", "\"7732-18-5\"", "\"2031-02-29\"",
        "[]", "[null]", "{}", "{\"id\":\"salt\"}", "{\"value\":1,\"unit\":\"g\"}", "{\"value\":-400,\"unit\":\"degC\"}", "{\"a/b\":1}", "\"\\u0000\"",
    ];

    private static void Mutate(JsonNode root, int place, string replacement, bool remove)
    {
        List<JsonNode> all = [.. Descendants(root)];
        JsonNode target = all[place % all.Count];
        JsonNode? value = JsonNode.Parse(replacement);
        switch (target.Parent)
        {
            case JsonObject parent when remove:
                parent.Remove(target.GetPropertyName());
                break;
            case JsonObject parent:
                parent[target.GetPropertyName()] = value;
                break;
            case JsonArray parent when remove:
                parent.Remove(target);
                break;
            case JsonArray parent:
                parent[target.GetElementIndex()] = value;
                break;
        }
    }

    private static IEnumerable<JsonNode> Descendants(JsonNode node)
    {
        IEnumerable<JsonNode?> children = node switch
        {
            JsonObject record => record.Select(member => member.Value),
            JsonArray list => list,
            _ => [],
        };
        return children.OfType<JsonNode>().SelectMany(child => Descendants(child).Prepend(child));
    }

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
