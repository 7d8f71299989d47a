namespace PreApproval.Audit;

/// <summary>Hashes, proofs and verification of the Merkle tree of RFC 6962 and RFC 9162 with SHA-256.</summary>
public static partial class MerkleTree
{
    public const int HashLength = 32;

    public static partial byte[] LeafHash(ReadOnlySpan<byte> leaf);

    public static partial byte[] NodeHash(ReadOnlySpan<byte> left, ReadOnlySpan<byte> right);

    /// <summary>Root over leaf hashes; the hash of nothing for no leaves.</summary>
    public static partial byte[] Root(IReadOnlyList<byte[]> leafHashes);

    /// <summary>Inclusion proof of the leaf at <paramref name="index"/> in the tree over all given leaf hashes.</summary>
    public static partial IReadOnlyList<byte[]> InclusionProof(IReadOnlyList<byte[]> leafHashes, long index);

    /// <summary>Consistency proof from the first <paramref name="firstSize"/> leaves to all of them.</summary>
    public static partial IReadOnlyList<byte[]> ConsistencyProof(IReadOnlyList<byte[]> leafHashes, long firstSize);

    public static partial bool VerifyInclusion(byte[] leafHash, long index, long size, IReadOnlyList<byte[]> proof, byte[] root);

    public static partial bool VerifyConsistency(long firstSize, long secondSize, byte[] firstRoot, byte[] secondRoot, IReadOnlyList<byte[]> proof);
}

/// <summary>The right edge of a growing tree: enough to append a leaf and to know the root. Immutable; at most 64 hashes.</summary>
public sealed partial record CompactRange
{
    public static CompactRange Empty { get; } = new();

    /// <summary>Number of leaves.</summary>
    public long Size { get; private init; }

    /// <summary>Roots of the perfect subtrees, largest first: one for each bit set in <see cref="Size"/>.</summary>
    public IReadOnlyList<byte[]> Hashes { get; private init; } = [];

    public partial CompactRange Append(byte[] leafHash);

    public partial byte[] Root();

    /// <summary>Size (8 bytes, big endian) and the hashes, for storage.</summary>
    public partial byte[] ToBytes();

    /// <summary>Reads what <see cref="ToBytes"/> wrote. Throws <see cref="FormatException"/> when the number of hashes does not fit the size.</summary>
    public static partial CompactRange FromBytes(ReadOnlySpan<byte> bytes);
}
