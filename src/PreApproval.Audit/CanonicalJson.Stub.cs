using System.Text.Json.Nodes;

namespace PreApproval.Audit;

public static partial class CanonicalJson
{
    public static partial byte[] Serialize(JsonNode? value) => throw new NotSupportedException();

    public static partial bool TryCanonicalize(ReadOnlySpan<byte> json, out byte[] canonical, out string error) => throw new NotSupportedException();

    public static partial string Digest(ReadOnlySpan<byte> bytes) => throw new NotSupportedException();
}
