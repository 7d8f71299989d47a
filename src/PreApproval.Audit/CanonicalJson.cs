using System.Text.Json.Nodes;

namespace PreApproval.Audit;

/// <summary>The JSON Canonicalization Scheme of RFC 8785.</summary>
public static partial class CanonicalJson
{
    /// <summary>Canonical UTF-8 bytes of a JSON value. Throws <see cref="FormatException"/> for NaN, infinities and lone surrogates.</summary>
    public static partial byte[] Serialize(JsonNode? value);

    /// <summary>Parses strictly (duplicate member names and invalid UTF-8 are refused) and canonicalises.</summary>
    public static partial bool TryCanonicalize(ReadOnlySpan<byte> json, out byte[] canonical, out string error);

    /// <summary><c>sha256:</c> and 64 lower-case hexadecimal digits of the SHA-256 of the bytes.</summary>
    public static partial string Digest(ReadOnlySpan<byte> bytes);
}
