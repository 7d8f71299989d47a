namespace PreApproval.Audit;

public static partial class MerkleTree
{
    public static partial byte[] LeafHash(ReadOnlySpan<byte> leaf) => throw new NotSupportedException();

    public static partial byte[] NodeHash(ReadOnlySpan<byte> left, ReadOnlySpan<byte> right) => throw new NotSupportedException();

    public static partial byte[] Root(IReadOnlyList<byte[]> leafHashes) => throw new NotSupportedException();

    public static partial IReadOnlyList<byte[]> InclusionProof(IReadOnlyList<byte[]> leafHashes, long index) => throw new NotSupportedException();

    public static partial IReadOnlyList<byte[]> ConsistencyProof(IReadOnlyList<byte[]> leafHashes, long firstSize) => throw new NotSupportedException();

    public static partial bool VerifyInclusion(byte[] leafHash, long index, long size, IReadOnlyList<byte[]> proof, byte[] root) => throw new NotSupportedException();

    public static partial bool VerifyConsistency(long firstSize, long secondSize, byte[] firstRoot, byte[] secondRoot, IReadOnlyList<byte[]> proof) => throw new NotSupportedException();
}

public sealed partial record CompactRange
{
    public partial CompactRange Append(byte[] leafHash) => throw new NotSupportedException();

    public partial byte[] Root() => throw new NotSupportedException();

    public partial byte[] ToBytes() => throw new NotSupportedException();

    public static partial CompactRange FromBytes(ReadOnlySpan<byte> bytes) => throw new NotSupportedException();
}
